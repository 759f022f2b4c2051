import type { SourceTown, TownNow } from "./sources.ts";

/** Two rows of one name and country within this are one town. */
const SAME_TOWN_DEG = 0.02;

/**
 * The code of the first-order division in which each town lies today. Divisions are merged and numbered anew, so a
 * town takes the code of its row in the newer list; one that has no such row takes what most towns of its old code took.
 */
export function divisionsToday(towns: readonly SourceTown[], now: readonly TownNow[]): Map<number, string> {
  const key = (town: { country: string; name: string }) => `${town.country}|${town.name}`;
  const byName = new Map<string, TownNow[]>();
  for (const town of now) {
    const alike = byName.get(key(town));
    if (alike === undefined) byName.set(key(town), [town]);
    else alike.push(town);
  }
  const today = new Map<number, string>();
  const votes = new Map<string, Map<string, number>>();
  for (const town of towns) {
    const row = byName
      .get(key(town))
      ?.find(
        (each) =>
          Math.abs(each.latitudeDeg - town.latitudeDeg) < SAME_TOWN_DEG &&
          Math.abs(each.longitudeDeg - town.longitudeDeg) < SAME_TOWN_DEG,
      );
    if (row === undefined) continue;
    today.set(town.id, row.division);
    const old = `${town.country}.${town.division}`;
    const counts = votes.get(old) ?? new Map<string, number>();
    votes.set(old, counts.set(row.division, (counts.get(row.division) ?? 0) + 1));
  }
  for (const town of towns) {
    if (today.has(town.id)) continue;
    const counts = votes.get(`${town.country}.${town.division}`);
    const most = counts && [...counts].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))[0]!;
    today.set(town.id, most?.[0] ?? town.division);
  }
  return today;
}
