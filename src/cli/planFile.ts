import { readFileSync, readSync, statSync } from "node:fs";
import { InputError } from "../plan/errors.ts";
import type { PlaceLookUp } from "../plan/fill.ts";
import { type PlanText, readPlanText } from "../plan/read.ts";
import { resolvePlace } from "../sky/places.ts";
import { loadGazetteer } from "./gazetteerFile.ts";
import { asInputError } from "./writeFile.ts";

/** Reads a plan file from disk; `-` reads standard input. */
export function readPlanFile(path: string): PlanText {
  return readPlanText(decoded(path, planBytes(path)), nameOf(path), lookUpPlace);
}

/** Finds a place by its name; the gazetteer is read when a plan first asks. */
export const lookUpPlace: PlaceLookUp = (wanted) => resolvePlace(loadGazetteer(), wanted);

/** How messages name a plan file. */
export const nameOf = (path: string): string => (path === "-" ? "standard input" : path);

/** The file as it is, byte by byte. */
export function planBytes(path: string): Buffer {
  try {
    if (path !== "-" && statSync(path).isDirectory())
      throw new InputError(`${path}: it is a folder; give the name of a plan file`);
    return path === "-" ? readStdin() : readFileSync(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") {
      throw new InputError(`${path}: no such file; \`lacunar init ${path}\` writes a starter plan`, {
        cause: error,
      });
    }
    throw asInputError(error, path);
  }
}

/** The text of a plan file, without a byte order mark. */
export function decoded(path: string, bytes: Uint8Array): string {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch (cause) {
    throw new InputError(`${nameOf(path)}: not a text file in UTF-8; save the plan as UTF-8`, { cause });
  }
}

/** Runs a stage; what it finds wrong in the plan is told with the line it stands on. */
export function locating<T>(locate: PlanText["locate"], act: () => T): T {
  try {
    return act();
  } catch (error) {
    if (!(error instanceof InputError) || error.key === undefined) throw error;
    throw new InputError(`${locate(error.key)}: ${error.message}`, { cause: error });
  }
}

/** All of standard input; a pipe that is slow to fill is waited for. */
function readStdin(): Buffer {
  const parts: Buffer[] = [];
  const part = Buffer.alloc(65_536);
  for (;;) {
    try {
      const count = readSync(0, part);
      if (count === 0) return Buffer.concat(parts);
      parts.push(Buffer.from(part.subarray(0, count)));
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      if (code === "EOF") return Buffer.concat(parts);
      if (code !== "EAGAIN") throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 20);
    }
  }
}
