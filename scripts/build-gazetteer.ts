// Compiles the open tables of towns into data/places.bin.br, which Lacunar reads. Nothing is downloaded: the packages named in
// scripts/gazetteer/sources.ts must be installed. `--packages DIR` says beside which folder's node_modules (here by
// default); `--check` rebuilds in memory and fails if what lies in data holds anything else.
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { brotliCompressSync, brotliDecompressSync, constants } from "node:zlib";
import { foldPlaceName } from "../src/sky/placesFold.ts";
import { divisionsToday } from "./gazetteer/divisions.ts";
import { type CompiledTown, encodePlaces } from "./gazetteer/encodePlaces.ts";
import { otherNamesOf } from "./gazetteer/otherNames.ts";
import { openSources } from "./gazetteer/sources.ts";
import { townZone } from "./gazetteer/townZone.ts";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const { values } = parseArgs({
  options: { packages: { type: "string", default: root }, check: { type: "boolean", default: false } },
});
const file = join(root, "data", "places.bin.br");

function compile(): { bytes: Uint8Array; towns: readonly CompiledTown[] } {
  const sources = openSources(resolve(values.packages));
  const source = sources.towns();
  const divisions = sources.divisions();
  const divisionOf = divisionsToday(source, sources.townsNow());
  const compiled = source.map((town) => {
    const divisionCode = divisionOf.get(town.id)!;
    return {
      ...town,
      divisionCode,
      divisionName: divisions.get(`${town.country}.${divisionCode}`) ?? "",
      otherNames: otherNamesOf(town.name, [town.asciiName, ...town.otherNames]),
      timeZone: townZone(sources.zonesAt(town.latitudeDeg, town.longitudeDeg), town),
    };
  });
  // Neighbours beside each other pack better than towns in the order of their size.
  const order = (town: (typeof compiled)[number]) =>
    `${town.country}\t${town.divisionCode}\t${foldPlaceName(town.name)}`;
  const keyed = compiled.map((town) => ({ town, key: order(town) }));
  keyed.sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : a.town.id - b.town.id));
  const towns = keyed.map(({ town }) => town);
  return { bytes: encodePlaces(towns), towns };
}

const sha256 = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");
const { bytes, towns } = compile();
if (values.check) {
  // Packed bytes may differ between versions of the packer; what they hold may not.
  if (!brotliDecompressSync(readFileSync(file)).equals(bytes)) {
    console.error("data/places.bin.br differs from what its sources give. Run: npm run gazetteer");
    process.exit(1);
  }
  console.error("data/places.bin.br is what its sources give.");
} else {
  const packed = brotliCompressSync(bytes, {
    params: {
      [constants.BROTLI_PARAM_QUALITY]: 11,
      [constants.BROTLI_PARAM_LGWIN]: 24,
      [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length,
    },
  });
  writeFileSync(file, packed);
  const summary = {
    rows: towns.length,
    otherNames: towns.reduce((sum, town) => sum + town.otherNames.length, 0),
    withoutPopulation: towns.filter((town) => town.population === 0).length,
    withoutDivisionName: towns.filter((town) => town.divisionName === "").length,
    timeZones: new Set(towns.map((town) => town.timeZone)).size,
    packed: { bytes: packed.length, sha256: sha256(packed) },
    unpacked: { bytes: bytes.length, sha256: sha256(bytes) },
  };
  console.error(JSON.stringify(summary, null, 2));
}
