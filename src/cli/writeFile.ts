import { existsSync, readFileSync, renameSync, statSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { InputError } from "../plan/errors.ts";
import { MADE_BY } from "../render/madeBy.ts";
import { removeIfThere, removeOnExit } from "./removeOnExit.ts";

/** How a system says no, in words; anything else is a fault of ours and passes on. */
const SYSTEM_WORDS: Readonly<Record<string, string>> = {
  EACCES: "permission denied",
  EPERM: "not permitted",
  ENOENT: "no such folder",
  ENOTDIR: "a part of the path is not a folder",
  EEXIST: "something that is not a folder is in the way",
  EISDIR: "it is a folder",
  EROFS: "the file system is read-only",
  ENOSPC: "the disk is full",
  EDQUOT: "the disk quota is used up",
  EFBIG: "the file would be too large for this disk",
  ENAMETOOLONG: "the name is too long",
  EIO: "the disk reports an error",
  ELOOP: "the path runs in circles",
};

export function asInputError(error: unknown, what: string): unknown {
  const words = SYSTEM_WORDS[(error as NodeJS.ErrnoException)?.code ?? ""];
  return words === undefined ? error : new InputError(`${what}: ${words}`, { cause: error });
}

/**
 * A picture is ours when it carries our mark, a text when it starts with the same line as its successor (a CSV's header,
 * say). An empty file is nobody's.
 */
function isOurs(path: string, next: string | Uint8Array): boolean {
  const seen = readFileSync(path);
  if (seen.length === 0) return true;
  if (typeof next !== "string") return seen.includes(MADE_BY);
  const start = Buffer.from(next.slice(0, Math.min(200, next.indexOf("\n") >>> 0)));
  return seen.subarray(0, start.length).equals(start);
}

/**
 * Writes a file whole or not at all: beside its place first, then moved there. What stands there already is replaced
 * only if Lacunar made it, or with `force`.
 */
export function writeFileWhole(path: string, content: string | Uint8Array, force: boolean): void {
  try {
    if (existsSync(path)) {
      if (statSync(path).isDirectory())
        throw new InputError(`${path}: it is a folder; give the name of a file`);
      if (!force && !isOurs(path, content)) {
        throw new InputError(
          `${path}: a file that Lacunar did not make is there already; choose another name, or --force to replace it`,
        );
      }
    }
    const beside = join(dirname(path), `.${basename(path)}.${process.pid}.part`);
    const forget = removeOnExit(beside);
    try {
      writeFileSync(beside, content, { flag: "wx" });
      renameSync(beside, path);
    } finally {
      removeIfThere(beside);
      forget();
    }
  } catch (error) {
    throw asInputError(error, path);
  }
}
