import Flatbush from "flatbush";
import type { Hole, PanelRecord, Schedule, ShapeRecord } from "./types.ts";

/*
 * Every hole against its panel as the schedule draws it: nothing of the placement's own geometry is asked, so that a slip there
 * does not hide itself.
 */
type Loop = readonly (readonly [number, number])[];

const FLOAT = 1e-6;
/** A true point this near to a border may have been on its other side before it was rounded. */
const ROUNDING_MM = 0.02;
/** From the rim of a relief hole to screws and hanging points. */
const BESIDE_SCREWS_MM = 20;

/** Distance to the nearest side, negative outside. */
function depthIn(loop: Loop, x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  let inside = false;
  let [ax, ay] = loop[loop.length - 1]!;
  for (const [bx, by] of loop) {
    const [ux, uy] = [bx - ax, by - ay];
    const along = ux * ux + uy * uy;
    const t = along === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * ux + (y - ay) * uy) / along));
    const [dx, dy] = [ax + t * ux - x, ay + t * uy - y];
    least = Math.min(least, dx * dx + dy * dy);
    if (ay > y !== by > y && x - ax < ((y - ay) * ux) / uy) inside = !inside;
    [ax, ay] = [bx, by];
  }
  return inside ? Math.sqrt(least) : -Math.sqrt(least);
}

const depthUnder = (shape: ShapeRecord, x: number, y: number): number =>
  "atMm" in shape
    ? shape.radiusMm - Math.hypot(x - shape.atMm[0], y - shape.atMm[1])
    : depthIn(shape.outlineMm, x, y);

/** Boxes pass over most battens without a look at their sides. */
function boxed(loop: Loop) {
  const [xs, ys] = [loop.map(([x]) => x), loop.map(([, y]) => y)];
  return { loop, left: Math.min(...xs), right: Math.max(...xs), low: Math.min(...ys), high: Math.max(...ys) };
}

type Finished = ReturnType<typeof boxed> & { readonly panel: PanelRecord };

/** Up to so many panels a look at each is quicker than an index. */
const FEW_PANELS = 24;

/** Indices of the panels whose boxes hold a point of the ceiling, and perhaps of some more. */
function panelsUnder(finished: readonly Finished[]): (xMm: number, yMm: number) => readonly number[] {
  if (finished.length <= FEW_PANELS) {
    const all = [...finished.keys()];
    return () => all;
  }
  const index = new Flatbush(finished.length);
  for (const { panel, left, right, low, high } of finished)
    index.add(panel.xMm + left, panel.yMm + low, panel.xMm + right, panel.yMm + high);
  index.finish();
  return (x, y) =>
    index.search(x - ROUNDING_MM, y - ROUNDING_MM, x + ROUNDING_MM, y + ROUNDING_MM).sort((a, b) => a - b);
}

export function onPanels({ holes, panels, plan }: Schedule): string[] {
  const byId = new Map<string, Hole[]>();
  for (const hole of holes) {
    const list = byId.get(hole.panel);
    if (list) list.push(hole);
    else byId.set(hole.panel, [hole]);
  }
  const faults: string[] = [];
  const finished = panels.map((panel) => ({ panel, ...boxed(panel.finishedOutlineMm) }));
  const under = panelsUnder(finished);
  const keepOuts = new Map(plan.keepOut.map((one) => [one.id, one]));
  const frame = plan.frame === "none" ? null : plan.frame;
  for (const panel of panels) {
    const battens = panel.battensMm.map(boxed);
    faults.push(...fixings(panel, battens));
    const relief = new Set(panel.boredHoles);
    const onFrame = frame === null ? 0 : frame.inset + frame.batten.width + plan.holes.batten;
    for (const hole of byId.get(panel.id) ?? []) {
      const { xMm: x, yMm: y } = hole;
      const r = hole.bitMm / 2;
      const isRelief = relief.has(hole.hole);
      const rim = depthIn(panel.outlineMm, x, y) - r;
      if (!(rim >= plan.holes.edge - FLOAT))
        faults.push(`${hole.hole}: its rim is ${rim.toFixed(3)} mm from the board's edge`);
      if (!isRelief) {
        if (!(rim >= onFrame - FLOAT))
          faults.push(`${hole.hole}: ${rim.toFixed(3)} mm from the edge, on the edge batten or outside it`);
        const wanted = plan.holes.batten + r - FLOAT;
        for (const { loop, left, right, low, high } of battens) {
          if (x <= left - wanted || x >= right + wanted || y <= low - wanted || y >= high + wanted) continue;
          const off = -depthIn(loop, x, y);
          if (!(off >= wanted))
            faults.push(`${hole.hole}: its rim is ${(off - r).toFixed(3)} mm from a batten`);
        }
      } else {
        const reliefMm = frame?.bored?.diameter ?? 0;
        faults.push(...besideScrews(hole, panel, reliefMm), ...reliefOnBatten(hole, battens, reliefMm / 2));
      }
      const [skyX, skyY] = [hole.skyXMm - panel.xMm, hole.skyYMm - panel.yMm];
      for (const shape of panel.keepOutMm) {
        const off = -depthUnder(shape, x, y) - r;
        if (!(off >= plan.holes.edge - FLOAT))
          faults.push(`${hole.hole}: its rim is ${off.toFixed(3)} mm from the ${shape.kind} ${shape.id}`);
        if (depthUnder(shape, skyX, skyY) < ROUNDING_MM) continue;
        const its = keepOuts.get(shape.id);
        if (its?.stars === "drop") faults.push(`${hole.hole}: lies under ${shape.id}, which drops its stars`);
        if (hole.shiftMm > (its?.upTo ?? plan.holes.maxShift) + FLOAT)
          faults.push(`${hole.hole}: moved ${hole.shiftMm} mm from under ${shape.id}`);
      }
      if (hole.shiftMm === 0) continue;
      for (const i of under(hole.skyXMm, hole.skyYMm)) {
        const { panel: other, loop, left, right, low, high } = finished[i]!;
        const [ox, oy] = [hole.skyXMm - other.xMm, hole.skyYMm - other.yMm];
        if (other.id === hole.panel || ox < left || ox > right || oy < low || oy > high) continue;
        if (depthIn(loop, ox, oy) > ROUNDING_MM)
          faults.push(`${hole.hole}: its true point is on panel ${other.id}`);
      }
    }
  }
  return faults;
}

function besideScrews(hole: Hole, { screwsMm, hangersMm }: PanelRecord, reliefMm: number): string[] {
  const least = BESIDE_SCREWS_MM + reliefMm / 2 - FLOAT;
  return [...screwsMm, ...hangersMm]
    .filter(([x, y]) => Math.hypot(x - hole.xMm, y - hole.yMm) < least)
    .map(([x, y]) => `${hole.hole}: its relief hole is too near the screw or hanging point at [${x}, ${y}]`);
}

/** The relief hole lies wholly on one batten and cuts into the side of none. */
function reliefOnBatten(
  { hole, xMm: x, yMm: y }: Hole,
  battens: readonly ReturnType<typeof boxed>[],
  reliefRadiusMm: number,
): string[] {
  const least = reliefRadiusMm - FLOAT;
  const depths = battens
    .filter(
      ({ left, right, low, high }) =>
        x > left - least && x < right + least && y > low - least && y < high + least,
    )
    .map(({ loop }) => depthIn(loop, x, y));
  const depth = Math.max(...depths);
  if (!(depth > 0)) return [`${hole}: bored through a batten, and lies on none`];
  const nearest = Math.min(...depths.map(Math.abs));
  return nearest >= least
    ? []
    : [`${hole}: its relief hole cuts into the side of a batten, ${nearest.toFixed(3)} mm away`];
}

/** Every screw and hanging point lies on the board, and behind it on a batten. */
function fixings(
  { id, outlineMm, screwsMm, hangersMm }: PanelRecord,
  battens: readonly ReturnType<typeof boxed>[],
): string[] {
  const lies =
    (what: string) =>
    ([x, y]: readonly [number, number]) => {
      const at = `panel ${id}: the ${what} at [${x}, ${y}]`;
      if (!(depthIn(outlineMm, x, y) > 0)) return [`${at} is off the board`];
      const isHeld = battens.some(
        ({ loop, left, right, low, high }) =>
          x >= left - ROUNDING_MM &&
          x <= right + ROUNDING_MM &&
          y >= low - ROUNDING_MM &&
          y <= high + ROUNDING_MM &&
          depthIn(loop, x, y) >= -ROUNDING_MM,
      );
      return isHeld ? [] : [`${at} is on no batten`];
    };
  return [...screwsMm.flatMap(lies("screw")), ...hangersMm.flatMap(lies("hanging point"))];
}
