import { checksumOfWords } from "../../src/sky/catalogue.ts";
import { PLACES_HEADER_BYTES, PLACES_LAYOUT, PLACES_MAGIC } from "../../src/sky/placesFile.ts";
import { foldPlaceName } from "../../src/sky/placesFold.ts";

export interface CompiledTown {
  readonly name: string;
  readonly otherNames: readonly string[];
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly country: string;
  readonly divisionCode: string;
  readonly divisionName: string;
  readonly population: number;
  readonly timeZone: string;
}

/** The bytes of the gazetteer before they are packed; the layout is told in data/PLACES.md. */
export function encodePlaces(towns: readonly CompiledTown[]): Uint8Array {
  const regionOf = (town: CompiledTown) => [town.country, town.divisionCode, town.divisionName].join("\t");
  const regions = indexed(towns.map(regionOf));
  const zones = indexed(towns.map((town) => town.timeZone));
  const lines = (lineOf: (town: CompiledTown) => string) =>
    new TextEncoder().encode(towns.map((town) => `${lineOf(town)}\n`).join(""));
  const texts = [
    new TextEncoder().encode(`${[...regions.keys()].join("\n")}\n\n${[...zones.keys()].join("\n")}`),
    lines((town) => town.name),
    lines((town) => namesWhere(town, isAscii)),
    lines((town) => namesWhere(town, (name) => !isAscii(name))),
  ];

  const size = PLACES_HEADER_BYTES + 16 * towns.length + texts.reduce((sum, text) => sum + text.length, 0);
  const bytes = new Uint8Array(Math.ceil(size / 4) * 4);
  const view = new DataView(bytes.buffer);
  bytes.set(PLACES_MAGIC);
  view.setUint32(8, PLACES_LAYOUT, true);
  view.setUint32(12, towns.length, true);
  for (const [i, text] of texts.entries()) view.setUint32(16 + 4 * i, text.length, true);

  let offset = PLACES_HEADER_BYTES;
  const column = (width: number, write: (town: CompiledTown, offset: number) => void) => {
    for (const town of towns) {
      write(town, offset);
      offset += width;
    }
  };
  column(4, (town, at) => view.setUint32(at, town.population, true));
  column(4, (town, at) => view.setInt32(at, Math.round(town.latitudeDeg * 1000), true));
  column(4, (town, at) => view.setInt32(at, Math.round(town.longitudeDeg * 1000), true));
  column(2, (town, at) => view.setUint16(at, regions.get(regionOf(town))!, true));
  column(2, (town, at) => view.setUint16(at, zones.get(town.timeZone)!, true));
  for (const text of texts) {
    bytes.set(text, offset);
    offset += text.length;
  }
  view.setUint32(32, checksumOfWords(new Int32Array(bytes.buffer, PLACES_HEADER_BYTES)), true);
  return bytes;
}

const isAscii = (folded: string): boolean => /^[ -~]*$/.test(folded);

/** Its own name first, or nothing in its stead, then `|` before each other one. */
function namesWhere(town: CompiledTown, belongs: (folded: string) => boolean): string {
  const own = foldPlaceName(town.name);
  return [belongs(own) ? own : "", ...town.otherNames.filter(belongs)].join("|");
}

/** Each text once, in alphabetical order, and its index. */
function indexed(texts: readonly string[]): Map<string, number> {
  const each = [...new Set(texts)].sort();
  if (each.length > 65_535) throw new Error(`${each.length} do not fit an index of 16 bits`);
  return new Map(each.map((text, i) => [text, i]));
}
