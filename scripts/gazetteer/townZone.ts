/** Towns that borders put on the wrong side, by GeoNames id. Source of the zone: zone.tab of the IANA database, 2025b. */
const CORRECTIONS: Readonly<Record<number, string>> = {
  146268: "Asia/Nicosia", // its point lies a few metres north of the line that halves the town
};

/**
 * The zone of a town. Where borders overlap, since both clocks are in use or both sides claim the land, the source of the
 * towns decides, but for Xinjiang, where the official clock is that of Beijing.
 * @param found  zones by borders, at least one
 * @param town   `timeZone` is the one that GeoNames has
 */
export function townZone(
  found: readonly string[],
  town: { readonly id: number; readonly timeZone: string },
): string {
  const corrected = CORRECTIONS[town.id];
  if (corrected !== undefined) return corrected;
  const [first] = found;
  if (first === undefined) throw new Error(`no zone by borders where GeoNames has ${town.timeZone}`);
  if (found.length === 1) return first;
  if (found.includes("Asia/Urumqi") && found.includes("Asia/Shanghai")) return "Asia/Shanghai";
  return found.includes(town.timeZone) ? town.timeZone : first;
}
