import { existsSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { InputError } from "../plan/errors.ts";
import { removeOnExit } from "./removeOnExit.ts";

/** How a system says no, in words; anything else is a fault of ours and passes on. */
const SYSTEM_WORDS: Readonly<Record<string, string>> = {
  EACCES: "permission denied",
  EPERM: "not permitted",
  ENOENT: "no such folder",
  ENOTDIR: "a part of the path is not a folder",
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

/** Marks pictures as ours, so that a later run may replace them. */
export const MADE_BY = "Made by Lacunar";

/** A file is ours when it carries our mark or starts exactly as its successor does (a CSV's header, say). */
function isOurs(path: string, next: Uint8Array): boolean {
  const seen = readFileSync(path);
  if (seen.length === 0 || seen.includes(MADE_BY)) return true;
  const lineEnd = next.indexOf(10);
  const start = next.subarray(0, Math.min(lineEnd < 0 ? 12 : lineEnd, 200));
  return seen.subarray(0, start.length).equals(start);
}

/**
 * Writes a file whole or not at all: beside its place first, then moved there. What stands there already is replaced
 * only if Lacunar made it, or with `force`.
 */
export function writeFileWhole(path: string, content: string | Uint8Array, force: boolean): void {
  const bytes = typeof content === "string" ? Buffer.from(content) : content;
  try {
    if (existsSync(path)) {
      if (statSync(path).isDirectory())
        throw new InputError(`${path}: it is a folder; give the name of a file`);
      if (!force && !isOurs(path, bytes)) {
        throw new InputError(
          `${path}: a file that Lacunar did not make is there already; choose another name, or --force to replace it`,
        );
      }
    }
    const beside = join(dirname(path), `.${basename(path)}.${process.pid}.part`);
    const forget = removeOnExit(beside);
    try {
      writeFileSync(beside, bytes, { flag: "wx" });
      renameSync(beside, path);
    } finally {
      rmSync(beside, { force: true });
      forget();
    }
  } catch (error) {
    throw asInputError(error, path);
  }
}
