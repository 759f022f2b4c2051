import fc from "fast-check";
import type { Plan } from "../../src/plan/plan.ts";
import type { Field } from "../../src/projection/field.ts";
import { type PlannedSky, planSky } from "../../src/schedule/makeSchedule.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";

/** Invented ceilings with one to three panels side by side: shapes, frames, keep-outs and margins of every kind. */
export const CEILING = { width: 2000, length: 700 };
const SLOT_MM = 660;

/** Corners in a unit square. */
const SHAPES: readonly (readonly (readonly [number, number])[])[] = [
  [
    [0, 0],
    [1, 0],
    [0.3, 1],
  ], // a triangle
  [
    [0, 0.2],
    [0.5, 0],
    [1, 0.3],
    [0.9, 1],
    [0.2, 0.9],
  ],
  [
    [0, 0],
    [1, 0],
    [1, 0.5],
    [0.5, 0.5],
    [0.5, 1],
    [0, 1],
  ], // an L
  [
    [0, 0],
    [1, 0],
    [1, 1],
    [0.7, 1],
    [0.7, 0.4],
    [0.3, 0.4],
    [0.3, 1],
    [0, 1],
  ], // a U
  [
    [0.3, 0],
    [0.7, 0],
    [0.7, 0.6],
    [1, 0.6],
    [1, 1],
    [0, 1],
    [0, 0.6],
    [0.3, 0.6],
  ], // a T
  [
    [0, 0],
    [1, 0],
    [1, 0.95],
    [0.95, 1],
    [0.05, 1],
    [0, 0.95],
  ], // two corners cut off
  [
    [0, 0],
    [0.38, 0],
    [0.5, 0.3],
    [0.62, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ], // cut around a fixture
  [
    [0.5, 0],
    [0.62, 0.36],
    [1, 0.4],
    [0.7, 0.62],
    [0.8, 1],
    [0.5, 0.75],
    [0.2, 1],
    [0.3, 0.62],
    [0, 0.4],
    [0.38, 0.36],
  ], // a star
  Array.from(
    { length: 24 },
    (_, i) => [0.5 + 0.5 * Math.cos((i * Math.PI) / 12), 0.5 + 0.5 * Math.sin((i * Math.PI) / 12)] as const,
  ), // nearly a disc
];

const step = fc.constantFrom(10, 1, 0.01, 0);
const mm = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const share = () => mm(0, 1);

const panel = fc.record({
  shape: fc.integer({ min: -4, max: SHAPES.length - 1 }), // below 0: a rectangle
  width: mm(180, 640),
  length: mm(180, 680),
  clockwise: fc.boolean(),
  step,
});

const keepOut = fc.record({
  kind: fc.constantFrom("circle", "rectangle", "outline"),
  x: share(),
  y: share(),
  size: mm(15, 150),
  stars: fc.constantFrom("move", "drop"),
  upTo: fc.option(mm(5, 60), { nil: undefined }),
  step,
});

const frame = fc.record({
  width: fc.constantFrom(19, 38, 12.7, 19.05, 25),
  inset: fc.constantFrom(0, 0, 5, 7.33),
  crossBattens: fc.integer({ min: 0, max: 3 }),
  extra: fc.array(fc.tuple(fc.nat(2), share(), share(), share(), share()), { maxLength: 2 }),
  bored: fc.option(
    fc.record({ brightest: fc.integer({ min: 1, max: 20 }), diameter: fc.constantFrom(6, 10) }),
    { nil: undefined },
  ),
  pitch: fc.constantFrom(150, 200, 400),
});

export const layouts = fc.record({
  drawnAs: fc.constantFrom("fromBelow", "reflectedPlan"),
  panels: fc.array(panel, { minLength: 1, maxLength: 3 }),
  keepOuts: fc.array(keepOut, { maxLength: 3 }),
  frame: fc.option(frame, { nil: undefined, freq: 4 }),
  fabric: fc.constantFrom(0, 0, 1, 1.37),
  edge: fc.constantFrom(0, 3, 8, 12, 6.35),
  batten: fc.constantFrom(0, 5, 3.175),
  spacing: fc.constantFrom(0, 3, 6.5, 15),
  merge: fc.constantFrom(0, 1, 3),
  maxShift: fc.constantFrom(5, 30, 60, 150),
  spread: fc.boolean(),
  strands: fc.tuple(fc.integer({ min: 5, max: 40 }), fc.nat(10), fc.nat(4)),
  seed: fc.integer({ min: 1, max: 2 ** 31 - 2 }),
});

export type Layout = typeof layouts extends fc.Arbitrary<infer T> ? T : never;

const stepped = (value: number, by: number) =>
  by === 0 ? value : by < 1 ? Math.round(value * 100) / 100 : Math.round(value / by) * by;

function panelsOf({ panels }: Layout) {
  return panels.map((one, i) => {
    const id = "ABC"[i]!;
    const [x, y] = [stepped(5 + i * (SLOT_MM + 3.3), one.step), stepped(6.6, one.step)];
    if (one.shape < 0)
      return { id, x, y, width: stepped(one.width, one.step), length: stepped(one.length, one.step) };
    const outline = SHAPES[one.shape]!.map(([u, v]) => [
      stepped(x + u * one.width, one.step),
      stepped(y + v * one.length, one.step),
    ]);
    return { id, outline: one.clockwise ? outline.reverse() : outline };
  });
}

function keepOutsOf({ keepOuts }: Layout) {
  return keepOuts.map(({ kind, x, y, size, stars, upTo, step: by }, i) => {
    const [cx, cy] = [
      stepped(size + 1 + x * (CEILING.width - 2 * size - 2), by === 10 ? 1 : by),
      stepped(size + 1 + y * (CEILING.length - 2 * size - 2), by === 10 ? 1 : by),
    ];
    const shared = { id: `K${i}`, kind: "other", stars, ...(upTo === undefined ? {} : { upTo }) };
    if (kind === "circle") return { ...shared, at: [cx, cy], radius: size };
    if (kind === "rectangle")
      return { ...shared, x: cx - size, y: cy - size / 2, width: 2 * size, length: size };
    return {
      ...shared,
      outline: [
        [cx - size, cy - size / 2],
        [cx + size, cy - size],
        [cx + size / 4, cy],
        [cx + size / 2, cy + size],
      ],
    };
  });
}

export function planOf(layout: Layout): Plan {
  const panels = panelsOf(layout);
  return planWith({
    drawnAs: layout.drawnAs,
    ceiling: CEILING,
    panels,
    fabric: { thickness: layout.fabric },
    keepOut: keepOutsOf(layout),
    ...(layout.frame === undefined
      ? {}
      : {
          frame: {
            batten: { width: layout.frame.width, depth: 38 },
            inset: layout.frame.inset,
            crossBattens: layout.frame.crossBattens,
            battens: layout.frame.extra.flatMap(([k, a, b, c, d]) => {
              const its = layout.panels[k];
              if (its === undefined || Math.hypot((a - c) * its.width, (b - d) * its.length) < 40) return [];
              // Within the middle of the box, so that it lies on the board at least in part, whichever its shape.
              const inside = (u: number, span: number) => 0.1 * span + 0.8 * u * span;
              return [
                {
                  panel: panels[k]!.id,
                  from: [inside(a, its.width), inside(b, its.length)],
                  to: [inside(c, its.width), inside(d, its.length)],
                },
              ];
            }),
            screws: { pitch: layout.frame.pitch },
            ...(layout.frame.bored === undefined
              ? {}
              : {
                  bored: {
                    ...layout.frame.bored,
                    diameter: Math.min(layout.frame.bored.diameter, layout.frame.width - 6),
                  },
                }),
          },
        }),
    fibre: {
      bundles: {
        count: 1,
        strands: { "0.5mm": layout.strands[0], "1mm": layout.strands[1], "1.5mm": layout.strands[2] },
      },
      sharing: "ceiling",
    },
    holes: {
      edge: layout.edge,
      batten: layout.batten,
      spacing: layout.spacing,
      merge: layout.merge,
      maxShift: layout.maxShift,
    },
    placement: { spread: layout.spread },
  });
}

let known: PlannedSky | undefined;

/** Lehmer's generator: 0 to 1. */
export function lehmer(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}

/** Stars of the catalogue strewn over the ceiling anew, every third of them close to the one before it. */
export function strewnSky(
  seed: number,
  count: number,
  ceiling: { width: number; length: number } = CEILING,
): PlannedSky {
  known ??= planSky(planWith(), testSky());
  const random = lehmer(seed);
  const [xMm, yMm, mag] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  for (let i = 0; i < count; i++) {
    const close = i > 0 && random() < 0.33;
    const strewn = (values: Float64Array, span: number) => {
      const at = close ? values[i - 1]! + (random() - 0.5) * 10 : random() * span;
      values[i] = Math.min(span, Math.max(0, at));
    };
    strewn(xMm, ceiling.width);
    strewn(yMm, ceiling.length);
    mag[i] = Math.round(random() * 600) / 100;
  }
  mag.sort();
  const { field } = known;
  const strewn: Field = {
    ...field,
    count,
    source: Int32Array.from(mag, (_, i) => i),
    rank: Int32Array.from(mag, (_, i) => testSky().catalogue.hip[i]!),
    vMag: mag,
    mag,
    enu: Float64Array.from({ length: 3 * count }, (_, i) => (i % 3 === 2 ? 1 : 0)),
    xMm,
    yMm,
    notShown: { belowHorizon: 0, beyondProjection: 0, offCeiling: 0 },
  };
  return { ...known, field: strewn };
}
