import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { decodeGazetteer, type Gazetteer } from "../sky/places.ts";
import { dataFile, ownBuffer } from "./dataFiles.ts";

/** Bytes; by the small pieces of the default, joining 11 MB takes as long as unpacking them. */
const UNPACKED_AT_ONCE = 2 ** 20;

let loaded: Gazetteer | undefined;

/** Reads the gazetteer from the package, once. Node only. */
export function loadGazetteer(): Gazetteer {
  loaded ??= decodeGazetteer(unpacked(readFileSync(dataFile("places.bin.br"))));
  return loaded;
}

function unpacked(packed: Buffer): ArrayBuffer {
  // Loaded when a place is looked up, not with every command: a plan with coordinates needs no unpacking.
  const { brotliDecompressSync } = createRequire(import.meta.url)("node:zlib") as typeof import("node:zlib");
  try {
    return ownBuffer(brotliDecompressSync(packed, { chunkSize: UNPACKED_AT_ONCE }));
  } catch (cause) {
    throw new Error("The gazetteer is damaged: it cannot be unpacked.", { cause });
  }
}
