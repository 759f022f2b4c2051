import {
  accessSync,
  chmodSync,
  constants,
  existsSync,
  readFileSync,
  realpathSync,
  renameSync,
  statSync,
  writeFileSync,
} from "node:fs";
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
  EBUSY: "it is in use, or the root of a mounted disk",
  ENXIO: "nothing is at the other end",
  ENOTEMPTY: "something was put there meanwhile",
  ELOOP: "the path runs in circles",
};

export function asInputError(error: unknown, what: string): unknown {
  const words = SYSTEM_WORDS[(error as NodeJS.ErrnoException)?.code ?? ""];
  return words === undefined ? error : new InputError(`${what}: ${words}`, { cause: error });
}

/** A picture is ours when it carries our mark; of a text nobody can tell, unless it is the same. */
function mayReplace(path: string, next: string | Uint8Array): boolean {
  const seen = readFileSync(path);
  return (
    seen.length === 0 || (typeof next === "string" ? seen.equals(Buffer.from(next)) : seen.includes(MADE_BY))
  );
}

/**
 * Writes a file whole or not at all: beside its place first, then moved there. What stands there already is replaced
 * only if it is a picture of ours or the same text, or with `force`.
 */
export function writeFileWhole(path: string, content: string | Uint8Array, force: boolean): void {
  if (path === "") throw new InputError("--output: the name is empty; give the name of a file");
  try {
    const target = existsSync(path) ? realpathSync(path) : path; // a link stays a link
    if (existsSync(target)) {
      const kind = statSync(target);
      if (kind.isDirectory()) throw new InputError(`${path}: it is a folder; give the name of a file`);
      if (kind.isCharacterDevice()) {
        writeFileSync(target, content); // /dev/null, a terminal: nothing to lose there
        return;
      }
      if (!kind.isFile()) throw new InputError(`${path}: it is no ordinary file; give another name`);
      if (!force && !mayReplace(target, content)) {
        throw new InputError(
          `${path}: a file is there already; choose another name, or --force to replace it`,
        );
      }
    }
    moveIntoPlace(target, content);
  } catch (error) {
    throw asInputError(error, path);
  }
}

/**
 * Puts a changed text in the place of the one it was made from, whole or not at all. The file keeps its permissions; a link
 * stays a link.
 * @param seen  what was read: if the file holds anything else by now, somebody else is at work on it and it stays
 */
export function replaceFile(path: string, content: Uint8Array, seen: Uint8Array): void {
  try {
    const target = realpathSync(path);
    const { mode } = statSync(target);
    accessSync(target, constants.W_OK);
    if (!readFileSync(target).equals(seen))
      throw new InputError(`${path}: was changed meanwhile, and stays as it is now; try again`);
    moveIntoPlace(target, content, mode);
  } catch (error) {
    throw asInputError(error, path);
  }
}

function moveIntoPlace(target: string, content: string | Uint8Array, mode?: number): void {
  const beside = join(dirname(target), `.${basename(target)}.${process.pid}.part`);
  const forget = removeOnExit(beside);
  try {
    writeFileSync(beside, content, { flag: "wx" });
    if (mode !== undefined) chmodSync(beside, mode & 0o7777);
    renameSync(beside, target);
  } finally {
    removeIfThere(beside);
    forget();
  }
}
