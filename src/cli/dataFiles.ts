import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { type BoundaryArc, parseBoundaries } from "../sky/boundaries.ts";
import { type Catalogue, decodeCatalogue, starVectors } from "../sky/catalogue.ts";
import { parseConstellations } from "../sky/constellations.ts";
import { parseDesignations } from "../sky/designations.ts";
import type { SkyData } from "../sky/skyData.ts";

/** The package's data folder: beside dist when installed, two folders up when run from the sources. */
export function dataFile(name: string): string {
  for (const up of ["../data/", "../../data/"]) {
    const path = fileURLToPath(new URL(up + name, import.meta.url));
    if (existsSync(path)) return path;
  }
  throw new Error(`data/${name} is missing from this installation`);
}

/** A large buffer has its memory to itself; a small one may share a pool. */
export const ownBuffer = ({ buffer, byteOffset, byteLength }: Buffer): ArrayBuffer =>
  (byteOffset === 0 && byteLength === buffer.byteLength
    ? buffer
    : buffer.slice(byteOffset, byteOffset + byteLength)) as ArrayBuffer;

const bytesOf = (name: string): ArrayBuffer => ownBuffer(readFileSync(dataFile(name)));

const textOf = (name: string): string => readFileSync(dataFile(name), "utf8");

/** Reads the compiled catalogue and its side files from the package. Node only. */
export function loadSkyData(): SkyData {
  const catalogue: Catalogue = decodeCatalogue(bytesOf("stars.bin"));
  return {
    catalogue,
    stars: starVectors(catalogue),
    designations: parseDesignations(textOf("designations.tsv")),
    constellations: parseConstellations(textOf("constellations.tsv")),
  };
}

/** The IAU boundaries: read only when they are drawn. */
export const loadBoundaries = (): readonly BoundaryArc[] => parseBoundaries(textOf("boundaries.tsv"));

/** Version of the compiled data, for manifests. */
export const dataVersion = (): string =>
  (JSON.parse(textOf("checksums.json")) as { version: string }).version;

/** The shipped font, for text drawn as outlines. */
export const fontBytes = (): ArrayBuffer => bytesOf("fonts/NotoSans-Regular.ttf");
