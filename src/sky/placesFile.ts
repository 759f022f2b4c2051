import { checksumOfWords } from "./catalogue.ts";

/** What lies in data/places.bin.br once it is unpacked; the layout is told in data/PLACES.md. */
export interface PlacesFile {
  readonly count: number;
  readonly population: Uint32Array;
  readonly latitudeMilliDeg: Int32Array;
  readonly longitudeMilliDeg: Int32Array;
  readonly region: Uint16Array;
  readonly timeZone: Uint16Array;
  /** `CC`, the code of the first-order division and its name, parted by tabs; either may be empty. */
  readonly regionLines: readonly string[];
  readonly timeZones: readonly string[];
  /** Names as they are written, UTF-8, one a line. */
  readonly names: Uint8Array;
  /** Folded names that are plain ASCII: a line a place, its own name first if that is, `|` before each other name. */
  readonly asciiNames: Uint8Array;
  /** All other folded names, UTF-8, the same way; many lines are empty. */
  readonly otherNames: Uint8Array;
}

export const PLACES_MAGIC = Uint8Array.from([0x4c, 0x41, 0x43, 0x50, 0x4c, 0x41, 0x43, 0x1a]); // LACPLAC, 1A hex
export const PLACES_LAYOUT = 1;
/** Magic, layout, count, four lengths, checksum. */
export const PLACES_HEADER_BYTES = 36;

/**
 * Takes the unpacked file apart; columns are views of its bytes.
 * @throws Error if it is damaged or of another layout
 */
export function readPlacesFile(bytes: ArrayBuffer): PlacesFile {
  const damaged = (what: string) => new Error(`The gazetteer is damaged: ${what}.`);
  if (bytes.byteLength < PLACES_HEADER_BYTES || bytes.byteLength % 4 !== 0)
    throw damaged("its end is missing");
  const head = new DataView(bytes, 0, PLACES_HEADER_BYTES);
  if (PLACES_MAGIC.some((byte, i) => head.getUint8(i) !== byte)) throw damaged("it starts as another file");
  if (head.getUint32(8, true) !== PLACES_LAYOUT) {
    throw new Error(
      `The gazetteer has layout ${head.getUint32(8, true)}; this version reads ${PLACES_LAYOUT}.`,
    );
  }
  const count = head.getUint32(12, true);
  const lengths = [16, 20, 24, 28].map((offset) => head.getUint32(offset, true));
  const size = PLACES_HEADER_BYTES + 16 * count + lengths.reduce((sum, each) => sum + each, 0);
  if (Math.ceil(size / 4) * 4 !== bytes.byteLength) throw damaged("its length is not what its head says");
  if (checksumOfWords(new Int32Array(bytes, PLACES_HEADER_BYTES)) !== head.getUint32(32, true)) {
    throw damaged("its checksum does not hold");
  }

  let offset = PLACES_HEADER_BYTES;
  const column = <T>(make: (buffer: ArrayBuffer, offset: number, count: number) => T, width: number): T => {
    const view = make(bytes, offset, count);
    offset += width * count;
    return view;
  };
  const columns = {
    population: column((...at) => new Uint32Array(...at), 4),
    latitudeMilliDeg: column((...at) => new Int32Array(...at), 4),
    longitudeMilliDeg: column((...at) => new Int32Array(...at), 4),
    region: column((...at) => new Uint16Array(...at), 2),
    timeZone: column((...at) => new Uint16Array(...at), 2),
  };
  const [tables, names, asciiNames, otherNames] = lengths.map((length) => {
    const part = new Uint8Array(bytes, offset, length);
    offset += length;
    return part;
  });
  const [regions = "", zones = ""] = new TextDecoder().decode(tables).split("\n\n");
  return {
    count,
    ...columns,
    regionLines: regions.split("\n"),
    timeZones: zones.split("\n"),
    names: names!,
    asciiNames: asciiNames!,
    otherNames: otherNames!,
  };
}
