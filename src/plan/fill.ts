import { asCutProblems } from "./asCutProblems.ts";
import { fillCeiling } from "./ceiling.ts";
import { cncProblems } from "./cncProblems.ts";
import type { Problem } from "./describeIssue.ts";
import { InputError, UnbuildableError } from "./errors.ts";
import { diameterOfKeyMm } from "./lengths.ts";
import { markingProblems } from "./markingProblems.ts";
import { battenProblems } from "./panelIds.ts";
import { leastOverlapMm, paperProblems, usualOverlapMm } from "./paper.ts";
import type { CeilingPlan, FibreSizePlan, PlacePlan, Plan, ShowPlan, ViewPlan } from "./plan.ts";
import { reliefProblems } from "./reliefHoles.ts";
import { type PlanInput, planSchema } from "./schema.ts";
import { fillTopBearing } from "./topBearing.ts";

/**
 * Bits for the four diameters of the trade: widest fibre (+6 %) through a hole that may come out 0.025 mm small.
 * Source: fibre tolerance of Mitsubishi Rayon's sheets MH-4002 and BH-4001; drills after US standard AND10387; choice of sizes: common practice.
 */
const USUAL_BITS_MM: readonly FibreSizePlan[] = [
  { diameter: 0.5, bit: 0.6 },
  { diameter: 0.75, bit: 0.85 },
  { diameter: 1, bit: 1.1 },
  { diameter: 1.5, bit: 1.65 },
];

/** Where a place of that name lies; throws InputError if that is not clear. */
export type PlaceLookUp = (wanted: { readonly name: string; readonly country?: string | undefined }) => {
  readonly name: string;
  readonly country: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly timeZone: string;
};

/**
 * Fills the defaults that depend on more than one key, and checks what a schema of single keys cannot.
 * @param lookUp  asked only when the plan names a place and gives no coordinates
 * @throws UnbuildableError when all is well but the measures of the room, which cannot close
 */
export function fillPlan(input: PlanInput, lookUp?: PlaceLookUp): { plan: Plan } | { problems: Problem[] } {
  const problems: Problem[] = [];
  const problem = (path: readonly PropertyKey[], message: string) =>
    problems.push({ path, atKey: false, message });

  const place = fillPlace(input.place, lookUp, problem);

  const panelCount = Array.isArray(input.panels)
    ? input.panels.length
    : input.panels.columns * input.panels.rows;
  if (panelCount > 1 && input.fibre.sharing === undefined) {
    problem(
      ["fibre"],
      "a plan with several panels must choose `sharing`; write `sharing: ceiling` (a bundle may feed any panel, and fibres that cross a seam tie panels together); `panel` is not built into this version",
    );
  }
  if (panelCount > 1 && input.fibre.sharing === "panel") {
    problem(
      ["fibre", "sharing"],
      "`panel` is not built into this version for several panels; write `ceiling`",
    );
  }
  if (Array.isArray(input.panels)) {
    const seen = new Set<string>();
    for (const [i, panel] of input.panels.entries()) {
      if (seen.has(panel.id.toLowerCase()))
        problem(
          ["panels", i, "id"],
          `${JSON.stringify(panel.id)} is taken by an earlier panel (large and small letters are the same in file names); give each panel its own id`,
        );
      seen.add(panel.id.toLowerCase());
    }
  }

  problems.push(...battenProblems(input), ...asCutProblems(input), ...markingProblems(input));

  if (input.keepOut.length > 0 && input.drawnAs === undefined) {
    problem(
      ["keepOut"],
      "a plan with keep-outs must say from which side they were measured; write `drawnAs: fromBelow` (as seen lying on the floor) or `drawnAs: reflectedPlan` (a ceiling plan laid out like a floor plan)",
    );
  }
  const keepOutIds = new Set<string>();
  for (const [i, { id }] of input.keepOut.entries()) {
    if (keepOutIds.has(id.toLowerCase()))
      problem(
        ["keepOut", i, "id"],
        `${JSON.stringify(id)} is taken by an earlier keep-out; give each its own id`,
      );
    keepOutIds.add(id.toLowerCase());
  }

  const strands: Record<string, number> = {};
  for (const [key, count] of Object.entries(input.fibre.bundles.strands)) {
    const diameter = diameterOfKeyMm(key);
    const path = ["fibre", "bundles", "strands", key];
    if (diameter === null || !(diameter > 0) || diameter > 20) {
      problem(path, "the key must be a fibre diameter such as 0.5mm");
    } else if (`${diameter}mm` in strands) {
      problem(path, `${diameter} mm is given twice`);
    } else strands[`${diameter}mm`] = count;
  }
  if (problems.length === 0 && Object.values(strands).every((count) => count === 0)) {
    problem(
      ["fibre", "bundles", "strands"],
      "there is not a single strand; write such as {0.5mm: 70, 0.75mm: 20, 1mm: 8, 1.5mm: 2}",
    );
  }
  const diameters = Object.keys(strands).map((key) => Number.parseFloat(key));
  const listed = input.fibre.sizes ?? [];
  const sizes = [
    ...listed,
    ...USUAL_BITS_MM.filter(
      ({ diameter }) => diameters.includes(diameter) && !listed.some((size) => size.diameter === diameter),
    ),
  ];
  for (const [i, size] of sizes.entries()) {
    if (size.bit <= size.diameter) {
      problem(
        ["fibre", "sizes", i, "bit"],
        `a ${size.bit} mm bit makes no room for a ${size.diameter} mm fibre; take a wider bit`,
      );
    }
    if (sizes.findIndex((other) => other.diameter === size.diameter) < i) {
      problem(["fibre", "sizes", i, "diameter"], `${size.diameter} mm is listed twice`);
    }
  }
  for (const diameter of diameters) {
    if (!sizes.some((size) => size.diameter === diameter)) {
      problem(
        ["fibre"],
        `no bit is given for ${diameter} mm fibre; add {diameter: ${diameter}mm, bit: …} to fibre.sizes`,
      );
    }
  }

  const { size: paperSize, margin, overlap = usualOverlapMm(sizes), measured100 } = input.paper;
  const paper = { size: paperSize, margin, overlap, measured100 };
  problems.push(...paperProblems(paper, leastOverlapMm(sizes)));
  problems.push(
    ...cncProblems(
      input,
      sizes.filter(({ diameter }) => (strands[`${diameter}mm`] ?? 0) > 0),
    ),
  );
  for (const message of reliefProblems(input, sizes, strands))
    problem(["frame", "bored", "diameter"], message);

  const moon = problems.length === 0 ? fillMoon(input, sizes, strands, problem) : false;
  const ceiling = fillCeiling(input.ceiling, input.drawnAs, problem);
  const view = ceiling && fillView(input, place, ceiling.plan ?? { width: 1, length: 1 }, problem);
  if (problems.length > 0 || view === null || place === null || ceiling === null) return { problems };
  if (ceiling.plan === null) throw new UnbuildableError([ceiling.finding]);
  return {
    plan: inSchemaOrder({
      ...input,
      place,
      view,
      show: { ...input.show, moon },
      ceiling: ceiling.plan,
      drawnAs: input.drawnAs ?? "fromBelow",
      fibre: {
        sizes: sizes.map((size) => ({ ...size })).sort((a, b) => a.diameter - b.diameter),
        bundles: { ...input.fibre.bundles, strands },
        reserve: input.fibre.reserve,
        milkyWay: input.fibre.milkyWay,
        sharing: input.fibre.sharing ?? "ceiling",
      },
      paper,
    }),
  };
}

/** Keys in the schema's order: a plan that is replayed is written out the same. */
const inSchemaOrder = (filled: Readonly<Record<string, unknown>>): Plan =>
  Object.fromEntries(
    Object.keys(planSchema.shape).flatMap((key) => (key in filled ? [[key, filled[key]]] : [])),
  ) as unknown as Plan;

/** Coordinates as they are written, or else those of the place that is named. */
function fillPlace(
  place: PlanInput["place"],
  lookUp: PlaceLookUp | undefined,
  problem: (path: readonly PropertyKey[], message: string) => void,
): PlacePlan | null {
  const { latitude, longitude, name } = place;
  if (latitude !== undefined && longitude !== undefined)
    return { ...place, latitude, longitude } as PlacePlan;
  if (name === undefined || latitude !== undefined || longitude !== undefined) {
    problem(
      ["place"],
      `${latitude === undefined ? "latitude" : "longitude"} is missing; write degrees, ${latitude === undefined ? "north" : "east"} positive`,
    );
    return null;
  }
  if (lookUp === undefined) {
    problem(["place"], "places are not looked up by name here; write latitude, longitude and timeZone");
    return null;
  }
  try {
    const found = lookUp({ name, country: place.country });
    return {
      name: found.name,
      country: found.country,
      latitude: found.latitudeDeg,
      longitude: found.longitudeDeg,
      timeZone: place.timeZone ?? found.timeZone,
      elevation: place.elevation,
    };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    for (const each of error.problems) problem(["place"], each);
    return null;
  }
}

/** Fewer holes than this are no ring. */
const FEWEST_IN_RING = 6;

function fillMoon(
  { show: { moon }, holes }: PlanInput,
  sizes: readonly { diameter: number; bit: number }[],
  strands: Readonly<Record<string, number>>,
  problem: (path: readonly PropertyKey[], message: string) => void,
): ShowPlan["moon"] {
  if (typeof moon === "boolean") return moon;
  const owned = sizes
    .filter(({ diameter }) => (strands[`${diameter}mm`] ?? 0) > 0)
    .sort((a, b) => a.diameter - b.diameter);
  const size = moon.fibre === undefined ? owned[0]! : owned.find(({ diameter }) => diameter === moon.fibre);
  if (size === undefined) {
    problem(
      ["show", "moon", "fibre"],
      `there are no strands of ${moon.fibre} mm; write one of ${owned.map(({ diameter }) => `${diameter}mm`).join(", ")}`,
    );
    return false;
  }
  // Six points of a circle lie as far from each other as from its centre.
  const apart = Math.max(holes.spacing, 3 * size.bit);
  const least = Math.ceil(2 * apart + 0.1);
  if (moon.ring < least) {
    problem(
      ["show", "moon", "ring"],
      `${moon.ring} mm leaves no room for ${FEWEST_IN_RING} holes ${apart} mm apart (holes.spacing, or three bits); write ${least}mm or more`,
    );
  }
  return { ring: moon.ring, fibre: size.diameter };
}

function fillView(
  input: PlanInput,
  place: PlacePlan | null,
  ceiling: Pick<CeilingPlan, "width" | "length">,
  problem: (path: readonly PropertyKey[], message: string) => void,
): ViewPlan | null {
  const { room } = input;
  const bearing = fillTopBearing(input.view.topBearing, input.view.topBearingFrom, place, (key, message) =>
    problem(["view", key], message),
  );
  if (bearing === null) return null;
  const view = { ...input.view, ...bearing };
  if (view.kind === "chart") return view as ViewPlan;
  const { below, aboveFloor, x = ceiling.width / 2, y = ceiling.length / 2 } = view.eye;
  if ((below === undefined) === (aboveFloor === undefined)) {
    problem(
      ["view", "eye"],
      below === undefined
        ? "write how far `below` the finished face the eye is, or how far `aboveFloor`"
        : "write `below` or `aboveFloor`, not both",
    );
    return null;
  }
  if (below !== undefined) return { ...view, eye: { below, x, y } } as ViewPlan;
  if (room === undefined) {
    problem(
      ["view", "eye", "aboveFloor"],
      "needs `room.height`, from the floor to the finished ceiling face",
    );
    return null;
  }
  if (aboveFloor! >= room.height) {
    problem(["view", "eye", "aboveFloor"], `${aboveFloor} mm is not below the ceiling at ${room.height} mm`);
    return null;
  }
  return { ...view, eye: { below: room.height - aboveFloor!, x, y } } as ViewPlan;
}
