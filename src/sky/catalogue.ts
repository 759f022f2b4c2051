/**
 * The compiled star catalogue: the layout of data/stars.bin and how it becomes columns.
 *
 * Little-endian throughout; every column starts at a multiple of its own width, so each is a view of the file's bytes:
 *
 *     offset  what
 *          0  magic: the eight bytes "LACUNAR" and 1A hex
 *          8  uint32 version of this layout, 1
 *         12  uint32 count: rows, n
 *         16  uint32 pmCount: rows with a proper motion, m
 *         20  uint32 checksum of all 32-bit words that follow (`checksumOfWords`)
 *         24  float64 unitJ2000[3n],
 *             int32 hip[n], int32 raJ2000E4Deg[n], int32 decJ2000E4Deg[n],
 *             int32 pmRow[m], float32 pmRaCosDecMasPerYr[m], float32 pmDecMasPerYr[m],
 *             int16 vCentiMag[n], int16 bvMilliMag[n], uint8 constellation[n], then zeros to a whole 32-bit word
 *
 * A machine that is not little-endian (none that runs Node or a browser today) would read an unknown version and stop.
 */

/** Stars of the compiled catalogue as parallel columns, brightest first (then by HIP number). */
export interface Catalogue {
  readonly count: number;
  /**
   * The same places as unit vectors [x0, y0, z0, x1, ...]: x to RA 0h, y to RA 6h, z to the pole. Stored, since computing
   * them took longer than reading all the rest.
   */
  readonly unitJ2000: Float64Array;
  /** Hipparcos numbers. */
  readonly hip: Int32Array;
  /** J2000 right ascension at epoch 2000.0, in units of 0.0001 degree (0 to 3,599,999). */
  readonly raJ2000E4Deg: Int32Array;
  /** J2000 declination at epoch 2000.0, in units of 0.0001 degree. */
  readonly decJ2000E4Deg: Int32Array;
  /** Johnson V in units of 0.01 magnitude. */
  readonly vCentiMag: Int16Array;
  /** Colour index B-V in units of 0.001 magnitude; `NO_COLOUR_INDEX` where the source has none. */
  readonly bvMilliMag: Int16Array;
  /** Index into `CONSTELLATION_CODES`, by the IAU boundaries. */
  readonly constellation: Uint8Array;
  /** Rows that have a proper motion, ascending. */
  readonly pmRow: Int32Array;
  /** Proper motion in right ascension times cos(declination), mas a year, one for each `pmRow`. */
  readonly pmRaCosDecMasPerYr: Float32Array;
  /** Proper motion in declination, mas a year, one for each `pmRow`. */
  readonly pmDecMasPerYr: Float32Array;
}

export const NO_COLOUR_INDEX = -32768;

export const CATALOGUE_MAGIC = "LACUNAR\x1a";
export const CATALOGUE_VERSION = 1;
export const CATALOGUE_HEADER_BYTES = 24;

/** Length in bytes of a catalogue of `count` rows, `pmCount` of which have a proper motion. */
export function catalogueBytes(count: number, pmCount: number): number {
  return CATALOGUE_HEADER_BYTES + 4 * Math.ceil((24 * count + 12 * count + 12 * pmCount + 5 * count) / 4);
}

/** FNV-1a taken over 32-bit words instead of bytes: one multiplication a word. It guards against damage, not malice. */
export function checksumOfWords(words: Int32Array): number {
  let hash = 0x811c9dc5 | 0; // signed throughout: unsigned words would be boxed until this is compiled, at twice the time
  for (let i = 0; i < words.length; i++) hash = Math.imul(hash ^ words[i]!, 0x01000193);
  return hash >>> 0;
}

/**
 * Columns of a compiled catalogue, as views of `bytes` (copied first only if they start off a 64-bit boundary).
 * Throws an `Error` in one sentence if the bytes are not such a catalogue, not of this version, cut, or damaged.
 */
export function decodeCatalogue(bytes: ArrayBuffer | Uint8Array): Catalogue {
  let view = bytes instanceof Uint8Array ? bytes : new Uint8Array(bytes);
  if (view.byteOffset % 8 !== 0) view = view.slice();
  const { buffer, byteOffset, byteLength } = view;
  if (byteLength < CATALOGUE_HEADER_BYTES) {
    throw new Error(`The star catalogue is cut short: ${byteLength} bytes, less than its header.`);
  }
  for (let i = 0; i < CATALOGUE_MAGIC.length; i++) {
    if (view[i] !== CATALOGUE_MAGIC.charCodeAt(i)) {
      throw new Error(`This is no star catalogue of Lacunar: it does not begin with "LACUNAR" and 1A hex.`);
    }
  }
  const [version, count, pmCount, checksum] = new Uint32Array(buffer, byteOffset + 8, 4) as unknown as [
    number,
    number,
    number,
    number,
  ];
  if (version !== CATALOGUE_VERSION) {
    throw new Error(
      `The star catalogue has layout version ${version}; this Lacunar reads version ${CATALOGUE_VERSION}.`,
    );
  }
  const wanted = catalogueBytes(count, pmCount);
  if (byteLength < wanted) {
    throw new Error(`The star catalogue is cut short: ${byteLength} bytes, where ${wanted} belong.`);
  }
  if (byteLength > wanted) {
    throw new Error(`The star catalogue is too long: ${byteLength} bytes, where ${wanted} belong.`);
  }
  const found = checksumOfWords(
    new Int32Array(buffer, byteOffset + CATALOGUE_HEADER_BYTES, (wanted - 24) / 4),
  );
  if (found !== checksum) {
    throw new Error(
      `The star catalogue is damaged: its checksum is ${hex(found)}, where its header says ${hex(checksum)}.`,
    );
  }
  let at = byteOffset + CATALOGUE_HEADER_BYTES;
  const next = (width: number, length: number): number => {
    const start = at;
    at += width * length;
    return start;
  };
  return {
    count,
    unitJ2000: new Float64Array(buffer, next(8, 3 * count), 3 * count),
    hip: new Int32Array(buffer, next(4, count), count),
    raJ2000E4Deg: new Int32Array(buffer, next(4, count), count),
    decJ2000E4Deg: new Int32Array(buffer, next(4, count), count),
    pmRow: new Int32Array(buffer, next(4, pmCount), pmCount),
    pmRaCosDecMasPerYr: new Float32Array(buffer, next(4, pmCount), pmCount),
    pmDecMasPerYr: new Float32Array(buffer, next(4, pmCount), pmCount),
    vCentiMag: new Int16Array(buffer, next(2, count), count),
    bvMilliMag: new Int16Array(buffer, next(2, count), count),
    constellation: new Uint8Array(buffer, next(1, count), count),
  };
}

function hex(word: number): string {
  return word.toString(16).padStart(8, "0");
}

/** The stars as directions that move, equator and equinox J2000, epoch 2000.0. */
export interface StarVectors {
  /** Unit vectors [x0, y0, z0, x1, ...], one triple for each row: `Catalogue.unitJ2000`. */
  readonly p: Float64Array;
  /** Rows that move, ascending: `Catalogue.pmRow`. */
  readonly pmRow: Int32Array;
  /** Velocities [vx0, vy0, vz0, ...] in radians a Julian year, across the line of sight, one triple for each `pmRow`. */
  readonly velocityRadPerYr: Float64Array;
}

const RAD_PER_MAS = Math.PI / 180 / 3600 / 1000;

/** Directions and velocities of all rows. */
export function starVectors(catalogue: Catalogue): StarVectors {
  const { unitJ2000: p, pmRow, pmRaCosDecMasPerYr, pmDecMasPerYr } = catalogue;
  const velocityRadPerYr = new Float64Array(3 * pmRow.length);
  for (let k = 0, j = 0; k < pmRow.length; k++, j += 3) {
    const i = 3 * pmRow[k]!;
    const sinDec = p[i + 2]!;
    const cosDec = Math.sqrt(p[i]! * p[i]! + p[i + 1]! * p[i + 1]!); // never 0: no star stands at a pole
    const cosRa = p[i]! / cosDec;
    const sinRa = p[i + 1]! / cosDec;
    const east = pmRaCosDecMasPerYr[k]! * RAD_PER_MAS;
    const north = pmDecMasPerYr[k]! * RAD_PER_MAS;
    velocityRadPerYr[j] = -sinRa * east - cosRa * sinDec * north;
    velocityRadPerYr[j + 1] = cosRa * east - sinRa * sinDec * north;
    velocityRadPerYr[j + 2] = cosDec * north;
  }
  return { p, pmRow, velocityRadPerYr };
}
