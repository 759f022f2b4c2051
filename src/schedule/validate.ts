import { milkyWayStrands, strandStock } from "../fibre/stock.ts";
import { makeClearance } from "../panel/clearance.ts";
import type { Hole, Schedule } from "./types.ts";
import { onPanels } from "./validatePanels.ts";

/** Two decimals leave half a hundredth on each of two rounded figures. */
const ROUNDING_MM = 0.0101;
const FLOAT = 1e-6;

/**
 * What must hold of every schedule, whatever the plan: a fault found here is ours, never the person's.
 * @returns one sentence a fault; none when all holds
 */
export function validateSchedule(schedule: Schedule): string[] {
  return [
    ...numbering(schedule.holes),
    ...positions(schedule),
    ...onPanels(schedule),
    ...spacing(schedule),
    ...strands(schedule),
    ...setAside(schedule),
    ...everyObjectOnce(schedule),
  ];
}

function numbering(holes: readonly Hole[]): string[] {
  const faults: string[] = [];
  let [panel, number, bit] = ["", 0, 0];
  for (const hole of holes) {
    if (hole.panel !== panel) {
      if (hole.panel < panel) faults.push(`${hole.hole}: panels are not in order`);
      [panel, number, bit] = [hole.panel, 0, 0];
    }
    number++;
    if (hole.hole !== `${panel}-${number}`)
      faults.push(`${hole.hole} stands where ${panel}-${number} belongs`);
    if (hole.bitMm < bit) faults.push(`${hole.hole}: a ${hole.bitMm} mm bit after a ${bit} mm one`);
    bit = hole.bitMm;
  }
  return faults;
}

function positions({ holes, panels, plan }: Schedule): string[] {
  const faults: string[] = [];
  const byId = new Map(panels.map((panel) => [panel.id, panel]));
  for (const hole of holes) {
    const panel = byId.get(hole.panel);
    if (!panel) {
      faults.push(`${hole.hole}: there is no panel ${hole.panel}`);
      continue;
    }
    const offX = Math.abs(panel.xMm + hole.xMm - hole.ceilingXMm);
    const offY = Math.abs(panel.yMm + hole.yMm - hole.ceilingYMm);
    if (!(offX <= 2 * ROUNDING_MM && offY <= 2 * ROUNDING_MM))
      faults.push(`${hole.hole}: its face and ceiling places differ`);
    const shift = Math.hypot(hole.ceilingXMm - hole.skyXMm, hole.ceilingYMm - hole.skyYMm);
    if (!(Math.abs(shift - hole.shiftMm) <= 2 * ROUNDING_MM))
      faults.push(`${hole.hole}: its shift is not the distance of its two places`);
    if (!(hole.shiftMm <= plan.holes.maxShift + FLOAT))
      faults.push(`${hole.hole}: moved ${hole.shiftMm} mm, more than maxShift`);
  }
  return faults;
}

/** Centre to centre over all pairs, on the ceiling: a sweep from left to right. */
function spacing({ holes, plan }: Schedule): string[] {
  const byX = [...holes].sort((a, b) => a.ceilingXMm - b.ceilingXMm);
  const widest = holes.reduce((most, { bitMm }) => Math.max(most, bitMm), 0);
  const most = Math.max(plan.holes.spacing, 3 * widest);
  return byX.flatMap((hole, i) => {
    const faults: string[] = [];
    for (let j = i + 1; j < byX.length; j++) {
      const other = byX[j]!;
      const across = other.ceilingXMm - hole.ceilingXMm;
      if (across >= most) break;
      const apart = Math.hypot(across, other.ceilingYMm - hole.ceilingYMm);
      const wanted = Math.max(plan.holes.spacing, 3 * Math.max(hole.bitMm, other.bitMm));
      if (!(apart >= wanted - FLOAT))
        faults.push(`${hole.hole} and ${other.hole}: ${apart.toFixed(3)} mm apart, not ${wanted}`);
    }
    return faults;
  });
}

function strands({ holes, plan }: Schedule): string[] {
  const faults: string[] = [];
  const stock = strandStock(plan.fibre);
  let brightestThinner = Number.POSITIVE_INFINITY;
  for (const size of [...stock].reverse()) {
    const its = holes.filter((hole) => hole.diameterMm === size.diameterMm);
    if (its.length > size.usable)
      faults.push(`${its.length} holes of ${size.diameterMm} mm, but ${size.usable} strands`);
    for (const hole of its) {
      if (hole.bitMm !== size.bitMm)
        faults.push(`${hole.hole}: a ${hole.bitMm} mm bit for ${size.diameterMm} mm fibre`);
      if (hole.mag !== null && hole.mag > brightestThinner)
        faults.push(`${hole.hole}: fainter than an object on thinner fibre`);
    }
    brightestThinner = its.reduce(
      (least, { mag }) => (mag === null ? least : Math.min(least, mag)),
      brightestThinner,
    );
  }
  const known = new Set(stock.map((size) => size.diameterMm));
  return [
    ...faults,
    ...holes.filter((hole) => !known.has(hole.diameterMm)).map((hole) => `${hole.hole}: no such fibre`),
  ];
}

/** What got its strands before grading keeps its distance; dots of the Milky Way are where they belong, and not too many. */
function setAside({ holes, plan }: Schedule): string[] {
  const faults: string[] = [];
  const ungraded = holes.filter((hole) => hole.mag === null);
  if (ungraded.length === 0) return faults;
  const dots = ungraded.filter((hole) => hole.kind === "milkyWay");
  const stock = strandStock(plan.fibre);
  const most = milkyWayStrands(stock, plan.fibre);
  if (dots.length > most) faults.push(`${dots.length} dots of the Milky Way, but ${most} strands for it`);
  const thinnestMm = stock.at(-1)!.diameterMm;
  for (const dot of dots) {
    if (dot.diameterMm !== thinnestMm)
      faults.push(`${dot.hole}: the Milky Way on ${dot.diameterMm} mm fibre`);
    if (dot.shiftMm !== 0 || dot.skyXMm !== dot.ceilingXMm || dot.skyYMm !== dot.ceilingYMm)
      faults.push(`${dot.hole}: a dot of the Milky Way was moved`);
  }
  for (const hole of ungraded) {
    if (hole.kind !== "milkyWay" && (hole.kind !== "moon" || typeof plan.show.moon !== "object"))
      faults.push(`${hole.hole}: a ${hole.kind} without magnitude`);
  }
  const largestBitMm = holes.reduce((largest, hole) => Math.max(largest, hole.bitMm), 0);
  const clearance = makeClearance(plan.holes.spacing, largestBitMm, -ROUNDING_MM);
  for (const { ceilingXMm, ceilingYMm, bitMm, mag } of holes)
    if (mag !== null) clearance.take(ceilingXMm, ceilingYMm, bitMm);
  // The Moon's ring against itself, the dots against all.
  const ring = makeClearance(plan.holes.spacing, largestBitMm, -ROUNDING_MM);
  for (const hole of [...ungraded].sort((a, b) => (a.kind < b.kind ? 1 : -1))) {
    const { kind, ceilingXMm: x, ceilingYMm: y, bitMm } = hole;
    if (!(kind === "moon" ? ring : clearance).isFree(x, y, bitMm))
      faults.push(`${hole.hole}: closer to another hole than the spacing`);
    clearance.take(x, y, bitMm);
    ring.take(x, y, bitMm);
  }
  return faults;
}

function everyObjectOnce({ holes, left, fidelity }: Schedule): string[] {
  const faults: string[] = [];
  const seen = new Set<number | string>();
  const meet = (key: number | string, where: string) => {
    if (seen.has(key))
      faults.push(`${where}: ${typeof key === "number" ? `HIP ${key}` : key} is there twice`);
    seen.add(key);
  };
  const ringHole = holes.find((hole) => hole.kind === "moon" && hole.mag === null);
  for (const hole of holes) {
    // The ring's many holes are one Moon.
    if (hole.mag === null && hole !== ringHole) continue;
    meet(hole.hip ?? hole.name, hole.hole);
    for (const hip of hole.merged) meet(hip, hole.hole);
  }
  for (const one of left) meet(one.hip ?? one.name, "left");
  const bodiesFolded = fidelity.merged - holes.reduce((sum, hole) => sum + hole.merged.length, 0);
  if (seen.size + bodiesFolded !== fidelity.objectsInField) {
    faults.push(`${seen.size + bodiesFolded} objects accounted for, ${fidelity.objectsInField} in the field`);
  }
  return faults;
}
