import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { LegalRegion } from "../../src/panel/legal.ts";
import { makePlacer } from "../../src/panel/placement.ts";
import { constraintsOf, workPanels } from "../../src/panel/work.ts";
import { readPlan } from "../../src/plan/read.ts";
import { inCeilingFrame } from "../../src/projection/frames.ts";
import { planSky, scheduleFrom } from "../../src/schedule/makeSchedule.ts";
import type { Hole } from "../../src/schedule/types.ts";
import { testSky } from "../sky/testSky.ts";

const DEMO = readFileSync(new URL("../../scripts/demo/bookshop.yaml", import.meta.url), "utf8");
const FRAME = "frame: {batten: {width: 38mm, depth: 38mm}, crossBattens: 1}\n";
const KEEP_OUTS =
  "keepOut: [{id: G, kind: grille, x: 600, y: 900, width: 300, length: 160}, {id: L, kind: luminaire, at: [2100, 1000], radius: 60}, {id: H, kind: hatch, outline: [[3000, 600], [3300, 600], [3150, 900]]}]\n";
const with2000 = (text: string) =>
  text.replace(/bundles: .*/, "bundles: {count: 20, strands: {0.5mm: 80, 0.75mm: 14, 1mm: 5, 1.5mm: 1}}");
const panelled = (panels: string) => (text: string) => text.replace(/panels: .*/, `panels: ${panels}`);
const POLYGONS = panelled(
  "[{id: L, outline: [[10,10],[2400,10],[2400,900],[1300,900],[1300,2990],[10,2990]]}, {id: R, outline: [[1303,903],[2403,903],[2403,10],[4190,10],[4190,2000],[3300,2990],[1303,2990]]}]",
);

/** The demo's sky on other panels: what the bars of the design are measured on. */
const CEILINGS: Readonly<Record<string, string>> = {
  "38 mm battens": DEMO + FRAME,
  "38 mm battens, 2000 fibres": with2000(DEMO) + FRAME,
  "three cross battens": with2000(DEMO) + FRAME.replace("crossBattens: 1", "crossBattens: 3"),
  "keep-outs": with2000(DEMO) + FRAME + KEEP_OUTS,
  "keep-outs without a frame": with2000(DEMO) + KEEP_OUTS,
  "a slanted batten of its own": `${with2000(DEMO)}frame: {batten: {width: 38mm, depth: 38mm}, crossBattens: 0, battens: [{panel: A1, from: [0, 300], to: [1389, 900]}]}\n`,
  polygons: POLYGONS(with2000(DEMO)) + FRAME,
  "polygons with keep-outs": POLYGONS(with2000(DEMO)) + FRAME + KEEP_OUTS,
  "polygons without a frame": POLYGONS(with2000(DEMO)),
  "wide gaps": panelled("{columns: 3, rows: 2, gap: 40mm, perimeter: 40mm}")(with2000(DEMO)) + FRAME,
};

interface Moved {
  readonly shiftMm: number;
  /** Of the nearest legal place for its bit, were it alone. */
  readonly leastMm: number;
  readonly toEdgeMm: number;
}

function measured(text: string, spread: boolean): Moved[] {
  const plan = readPlan(`${text}placement: {spread: ${spread}}\n`, "bars.yaml");
  const { holes } = scheduleFrom(plan, testSky(), planSky(plan, testSky()));
  const panels = workPanels(inCeilingFrame(plan));
  const placer = makePlacer(panels, plan.holes, plan.frame);
  const regions = new Map<string, LegalRegion>();
  const regionOf = ({ panel, bitMm }: Hole) => {
    const key = `${panel} ${bitMm}`;
    const its = panels.find(({ id }) => id === panel)!;
    if (!regions.has(key)) regions.set(key, new LegalRegion(constraintsOf(its, bitMm, plan.holes)));
    return regions.get(key)!;
  };
  return [...holes]
    .sort((a, b) => a.mag! - b.mag!)
    .map((hole) => ({
      shiftMm: hole.shiftMm,
      // Checked against a dense search in nearest.test.ts.
      leastMm: placer.nearestPlace(hole.skyXMm, hole.skyYMm, hole.bitMm)!.shiftMm,
      toEdgeMm: regionOf(hole).nearestBoundary(hole.xMm, hole.yMm)!.distance,
    }));
}

const rms = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
const overBound = (moved: readonly Moved[]) =>
  rms(moved.map(({ shiftMm }) => shiftMm)) / rms(moved.map(({ leastMm }) => leastMm));

describe("the demo's sky (bars of the design, section 8)", () => {
  for (const [name, text] of Object.entries(CEILINGS)) {
    it(`is spread beside dead strips: ${name}`, () => {
      const moved = measured(text, true);
      const tenth = Math.ceil(moved.length / 10);
      expect(moved.length).toBeGreaterThan(500);
      expect(overBound(moved.slice(0, tenth))).toBeLessThanOrEqual(1.05);
      expect(overBound(moved)).toBeLessThanOrEqual(1.5);
      const others = moved.slice(tenth).filter(({ shiftMm }) => shiftMm > 3);
      expect(others.length).toBeGreaterThan(40);
      const lined = others.filter(({ toEdgeMm }) => toEdgeMm < 1);
      expect(lined.length / others.length).toBeLessThanOrEqual(0.2);
    }, 60_000);

    it(`is moved no farther than it must be without spreading: ${name}`, () => {
      const moved = measured(`${text}holes: {spacing: 0mm}\n`, false);
      expect(overBound(moved)).toBeLessThanOrEqual(1.01);
      // Not an empty claim: the wood moves many of them.
      expect(moved.filter(({ leastMm }) => leastMm > 3).length).toBeGreaterThan(40);
    }, 60_000);
  }
});

describe("spreading keeps the order of stars along the normal of a batten", () => {
  const placesAlong = (text: string, from: readonly [number, number], to: readonly [number, number]) => {
    const plan = readPlan(text, "order.yaml");
    const placer = makePlacer(workPanels(inCeilingFrame(plan)), plan.holes, plan.frame);
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const span = Math.hypot(dx, dy);
    return Array.from({ length: 400 }, (_, i) => {
      const t = i / 399;
      const star = { xMm: from[0] + t * dx, yMm: from[1] + t * dy };
      const place = placer
        .begin({ widestBitMm: 0.6 })
        .place({ ...star, bitMm: 0.6, mayBore: false, reachMm: 60 }, true);
      return ((place!.xMm - from[0]) * dx + (place!.yMm - from[1]) * dy) / span;
    });
  };
  // Neighbouring stars are a few tenths of a millimetre apart and places are whole hundredths.
  const falls = (along: readonly number[]) =>
    Math.max(...along.slice(1).map((value, i) => along[i]! - value));

  it("an edge batten and the seam beside it", () => {
    expect(falls(placesAlong(DEMO + FRAME, [1200, 600], [1600, 600]))).toBeLessThan(0.02);
  });
  it("a cross batten", () => {
    expect(falls(placesAlong(DEMO + FRAME, [500, 800], [900, 800]))).toBeLessThan(0.02);
    expect(falls(placesAlong(DEMO + FRAME, [600, 600], [600, 900]))).toBeLessThan(0.02);
  });
  it("a slanted side of a polygon", () => {
    // R's side from [4190, 2000] to [3300, 2990], from inside outward; its middle is [3745, 2495].
    const [nx, ny] = [990 / Math.hypot(990, 890), 890 / Math.hypot(990, 890)];
    const along = placesAlong(
      POLYGONS(DEMO) + FRAME,
      [3745 - 250 * nx, 2495 - 250 * ny],
      [3745 - 2 * nx, 2495 - 2 * ny],
    );
    // The ray method finds its depths to half a millimetre.
    expect(falls(along)).toBeLessThan(0.6);
    expect(along.at(-1)! - along[0]!).toBeGreaterThan(100);
  });
  it("a round keep-out", () => {
    expect(falls(placesAlong(DEMO + KEEP_OUTS, [2115, 1000], [2300, 1000]))).toBeLessThan(0.6);
  });
});
