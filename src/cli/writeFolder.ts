import { createHash } from "node:crypto";
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join, relative, resolve, sep } from "node:path";
import { InputError } from "../plan/errors.ts";
import { removeIfThere, removeOnExit } from "./removeOnExit.ts";
import { asInputError } from "./writeFile.ts";

/** Paths inside the folder, with `/`, and their content. A path that ends in `/` is an empty folder. */
export type FolderContent = ReadonlyMap<string, string | Uint8Array>;

export interface Manifest {
  readonly lacunar: string;
  readonly data: string;
  /** SHA-256 of each file but this one. */
  readonly files: Readonly<Record<string, string>>;
}

export const MANIFEST = "manifest.json";

const sha256 = (content: string | Uint8Array): string => createHash("sha256").update(content).digest("hex");

/**
 * Writes a folder whole or not at all: built beside its place, then moved there. A folder that is there already is
 * replaced only if all in it is as an earlier run left it (its manifest tells), or with `force`.
 */
export function writeFolderWhole(
  folder: string,
  content: FolderContent,
  versions: { lacunar: string; data: string },
  force: boolean,
  keep: readonly string[] = [],
): void {
  const target = resolve(folder);
  refuseForeign(target, folder, force, keep);
  const parent = dirname(target);
  const beside = join(parent, `.${basename(target)}.${process.pid}.part`);
  const old = join(parent, `.${basename(target)}.${process.pid}.old`);
  const forget = removeOnExit(beside);
  try {
    mkdirSync(parent, { recursive: true });
    mkdirSync(beside);
    const files: Record<string, string> = {};
    for (const [path, bytes] of content) {
      const full = join(beside, ...path.split("/"));
      if (path.endsWith("/")) {
        mkdirSync(full, { recursive: true });
        continue;
      }
      mkdirSync(dirname(full), { recursive: true });
      writeFileSync(full, bytes);
      files[path] = sha256(bytes);
    }
    const manifest: Manifest = { ...versions, files };
    writeFileSync(join(beside, MANIFEST), `${JSON.stringify(manifest, null, 2)}\n`);
    if (existsSync(target)) {
      renameSync(target, old);
      try {
        renameSync(beside, target);
      } catch (error) {
        renameSync(old, target);
        throw error;
      }
      removeIfThere(old);
    } else renameSync(beside, target);
  } catch (error) {
    throw asInputError(error, folder);
  } finally {
    removeIfThere(beside);
    forget();
  }
}

/**
 * Refuses a place whose content would be lost. Checked before the work as well, so that nobody waits for a result that
 * has nowhere to go.
 * @param keep paths that must survive even `force`: the plan file, the folder one works in
 */
export function refuseForeign(
  target: string,
  shownAs: string,
  force: boolean,
  keep: readonly string[] = [],
): void {
  if (!existsSync(target)) return;
  if (!statSync(target).isDirectory()) {
    throw new InputError(`${shownAs}: a file of that name is there already; choose another folder`);
  }
  const there = filesIn(target);
  if (there.length === 0) return;
  const why = foreignIn(target, there);
  if (why === null) return;
  const lost = keep.find((path) =>
    `${resolve(path)}${sep}`.startsWith(target === sep ? sep : `${target}${sep}`),
  );
  if (force && lost !== undefined) {
    throw new InputError(
      `${shownAs}: ${lost} is in that folder, and replacing it would delete it; choose another folder`,
    );
  }
  if (!force) {
    throw new InputError(
      `${shownAs}: ${why}; choose another folder, or --force to replace ALL that is in it`,
    );
  }
}

/** Why a folder's content is not as a run of ours left it; null when it is. */
function foreignIn(target: string, there: readonly string[]): string | null {
  const files = manifestFiles(target);
  if (files === null) return "the folder is not empty and Lacunar did not make it";
  for (const path of there) {
    if (path === MANIFEST) continue;
    const known = files[path];
    if (known === undefined) return `${path} is not of Lacunar's making`;
    if (sha256(readFileSync(join(target, ...path.split("/")))) !== known)
      return `${path} was changed since it was made`;
  }
  return null;
}

function manifestFiles(target: string): Manifest["files"] | null {
  try {
    const manifest = JSON.parse(readFileSync(join(target, MANIFEST), "utf8")) as Partial<Manifest> | null;
    return typeof manifest?.lacunar === "string" ? (manifest.files ?? null) : null;
  } catch {
    return null;
  }
}

function filesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => !entry.isDirectory())
    .map((entry) =>
      relative(folder, join(entry.parentPath ?? entry.path, entry.name))
        .split(sep)
        .join("/"),
    );
}
