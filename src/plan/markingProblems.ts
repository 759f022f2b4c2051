import type { Problem } from "./describeIssue.ts";
import { noSuchPanel, panelIdsOf } from "./panelIds.ts";
import type { PictureCorners } from "./plan.ts";
import type { PlanInput } from "./schema.ts";

/** What is wrong with the pictures for a projector that a plan asks for: ids, groups, corners. */
export function markingProblems({ marking, panels }: PlanInput): Problem[] {
  const { groups, keystone, pixels } = marking;
  if (groups.length === 0 && keystone.length === 0) return [];
  const known = panelIdsOf(panels);
  const ids = new Set(known);
  const problems: Problem[] = [];
  const problem = (path: readonly PropertyKey[], message: string) =>
    problems.push({ path: ["marking", ...path], atKey: false, message });

  const idsSound = (path: readonly PropertyKey[], group: readonly string[]): boolean => {
    const before = problems.length;
    for (const [k, id] of group.entries()) {
      if (!ids.has(id)) problem([...path, k], noSuchPanel(id, known));
      else if (group.indexOf(id) < k) problem([...path, k], `panel ${id} is in this group twice`);
    }
    return problems.length === before;
  };
  const pictureOf = new Map<string, string>([...ids].map((id) => [id, id]));
  for (const [i, group] of groups.entries()) {
    if (!idsSound(["groups", i], group)) continue;
    const earlier = pictureOf.get(sameGroup(group));
    if (earlier !== undefined)
      problem(["groups", i], `these panels have a picture already, ${earlier}; name each group once`);
    pictureOf.set(sameGroup(group), group.join("+"));
  }
  const squared = new Set<string>();
  for (const [i, { panels: named, corners }] of keystone.entries()) {
    if (!idsSound(["keystone", i, "panels"], named)) continue;
    const key = sameGroup(named);
    if (!pictureOf.has(key))
      problem(
        ["keystone", i, "panels"],
        `there is no picture of ${named.join("+")}; name one panel, or add the group to marking.groups`,
      );
    else if (squared.has(key))
      problem(["keystone", i, "panels"], `the corners of ${named.join("+")} are given twice`);
    squared.add(key);
    const fault = cornerFault(corners, pixels);
    if (fault !== null) problem(["keystone", i, "corners"], fault);
  }
  return problems;
}

/** Names the set of panels: the order in which they are written makes no other picture. */
export const sameGroup = (ids: readonly string[]): string => [...ids].sort().join("+");

/** Shorter sides than this many pixels are slips. */
const SHORTEST_SIDE_PX = 50;
/** A corner nearer than this to the line through its neighbours is none: the sine of the angle between the sides. */
const FLATTEST_SINE = 0.02;

/**
 * Why four corners in a picture cannot be those of a board seen from the FACE; null when they can.
 * In pixels y runs down, so corners that run counter-clockwise to the eye turn clockwise by the formula.
 */
function cornerFault(
  { lowerLeft, lowerRight, upperRight, upperLeft }: PictureCorners,
  [widthPx, heightPx]: readonly [number, number],
): string | null {
  const ring = [lowerLeft, lowerRight, upperRight, upperLeft];
  const beyond = ring.find(([x, y]) => !(x >= 0 && x <= widthPx && y >= 0 && y <= heightPx));
  if (beyond !== undefined)
    return `[${beyond.join(", ")}] lies outside the picture of ${widthPx} x ${heightPx} pixels; move the projector until all four corners of the board are lit`;
  const sines = ring.map(([x, y], k) => {
    const [ax, ay] = ring[(k + 3) % 4]!;
    const [bx, by] = ring[(k + 1) % 4]!;
    const [ux, uy, vx, vy] = [x - ax, y - ay, bx - x, by - y];
    const lengths = Math.hypot(ux, uy) * Math.hypot(vx, vy);
    return lengths < SHORTEST_SIDE_PX ** 2 ? 0 : (ux * vy - uy * vx) / lengths;
  });
  if (sines.every((sine) => sine < -FLATTEST_SINE)) return null;
  if (sines.every((sine) => sine > FLATTEST_SINE))
    return "the corners run the wrong way round, as if the picture were mirrored: every star would land on the wrong side; set the projector to front projection, and name left and right as seen on the FACE";
  return "the corners do not make a convex quadrilateral; give lowerLeft, lowerRight, upperRight, upperLeft as seen on the FACE, each [x, y] in pixels from the picture's upper-left corner";
}
