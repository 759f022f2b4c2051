import { createHash } from "node:crypto";
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  realpathSync,
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

const MANIFEST = "manifest.json";

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
  planPath: string,
): void {
  refuseForeign(folder, force, planPath);
  const target = targetOf(folder);
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

/** The folder that is meant: a link leads to what it points at. */
const targetOf = (folder: string): string => (existsSync(folder) ? realpathSync(folder) : resolve(folder));

/**
 * Refuses a place whose content would be lost. Checked before the work as well, so that nobody waits for a result that
 * has nowhere to go.
 * @param planPath must survive even `force`
 */
export function refuseForeign(folder: string, force: boolean, planPath: string): void {
  if (folder === "") throw new InputError("--output: the name is empty; give the name of a folder");
  try {
    const target = targetOf(folder);
    const holds = (path: string) => `${path}${sep}`.startsWith(target === sep ? sep : `${target}${sep}`);
    if (holds(realpathSync(process.cwd()))) {
      throw new InputError(
        `${folder}: you are in that folder, and it would be replaced; choose another folder`,
      );
    }
    if (!existsSync(target)) return;
    if (!statSync(target).isDirectory()) {
      throw new InputError(`${folder}: a file of that name is there already; choose another folder`);
    }
    if (readdirSync(target).length === 0) return;
    const why = foreignIn(target);
    if (why === null) return;
    if (!force)
      throw new InputError(
        `${folder}: ${why}; choose another folder, or --force to replace ALL that is in it`,
      );
    if (planPath !== "-" && existsSync(planPath) && holds(realpathSync(planPath))) {
      throw new InputError(
        `${folder}: ${planPath} is in that folder, and replacing it would delete it; choose another folder`,
      );
    }
  } catch (error) {
    throw asInputError(error, folder);
  }
}

/** Why a folder's content is not as a run of ours left it; null when it is. */
function foreignIn(target: string): string | null {
  const files = manifestFiles(target);
  if (files === null) return "the folder is not empty and Lacunar did not make it";
  const there = filesIn(target);
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
