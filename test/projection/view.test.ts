import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/plan/errors.ts";
import type { ChartViewPlan, EyeViewPlan, ProjectionName, ViewPlan } from "../../src/plan/plan.ts";
import { type AimedAt, aimAtHorizontal, makeView, type View } from "../../src/projection/view.ts";
import { altitudeDeg, azimuthDeg, directionOf } from "../../src/sky/apparent.ts";
import { cross, dot, type Vector3 } from "../../src/sky/matrix.ts";
import { erfaGnomonic, radialLaw, samePointInFive, snyderExamples } from "../reference/published.ts";

const RAD = Math.PI / 180;
const NORTH: Vector3 = [0, Math.cos(0.6), Math.sin(0.6)]; // a celestial pole somewhere in the north
const base = { aim: "zenith", topBearing: 0, up: "zenith", roll: 0 } as const;
const chart = (
  projection: ProjectionName,
  span: number,
  more: Partial<ChartViewPlan> = {},
): ChartViewPlan => ({ ...base, kind: "chart", projection, span, ...more });
const eye = (more: Partial<EyeViewPlan> = {}): EyeViewPlan => ({
  ...base,
  kind: "eye",
  eye: { below: 1350, x: 2000, y: 1500 },
  ...more,
});
const CEILING = { width: 4000, length: 3000 };
const zenith: AimedAt = { enu: [0, 0, 1], northEnu: NORTH };
const aimed = (altitude: number, azimuth: number): AimedAt => ({
  ...aimAtHorizontal(altitude, azimuth),
  northEnu: NORTH,
});

/** A view whose plane has one mm a radian about (0, 0), so that published x and y can be read off it. */
function unitView(projection: ProjectionName | "gnomonic", radius: number, aim: AimedAt): View {
  if (projection === "gnomonic") {
    return makeView(
      { ...base, kind: "eye", eye: { below: radius, x: 0, y: 0 } },
      { width: 0.1, length: 0.1 },
      aim,
    );
  }
  // k f(span/2) = width / 2: at span 1 degree, choose the width that makes k the radius; the centre lies at width / 2.
  const f = {
    stereographic: 2 * Math.tan(RAD / 4),
    equalArea: 2 * Math.sin(RAD / 4),
    equidistant: RAD / 2,
    orthographic: Math.sin(RAD / 2),
  }[projection];
  return makeView(chart(projection, 1), { width: 2 * radius * f, length: 1e-6 }, aim);
}

/**
 * Snyder maps the ground: longitude as azimuth-like angle east, latitude as declination. Put the sphere's centre point at
 * our aim with altitude = latitude and azimuth = longitude: then increasing altitude is up as on his page, and azimuth
 * grows to the right, as east does on a map of the ground.
 */
const onSphere = (latDeg: number, lonDeg: number): Vector3 => directionOf(latDeg, lonDeg);

describe("projections", () => {
  // Oracle: Snyder 1987, USGS Professional Paper 1395, Appendix A, numerical examples.
  it.each(snyderExamples.rows)("$projection gives every printed digit of Snyder's example", (row) => {
    const view = unitView(row.projection, row.radius, aimed(row.centre.latDeg, row.centre.lonDeg));
    const point = view.projectOne(onSphere(row.point.latDeg, row.point.lonDeg))!;
    const x = point.xMm - view.centre.xMm;
    const y = point.yMm - view.centre.yMm;
    expect(Math.abs(x - row.x)).toBeLessThanOrEqual(snyderExamples.tolerance);
    expect(Math.abs(y - row.y)).toBeLessThanOrEqual(snyderExamples.tolerance);
    expect(Math.abs(x - row.xFull)).toBeLessThan(1e-9);
    expect(Math.abs(y - row.yFull)).toBeLessThan(1e-9);
  });

  it.each(snyderExamples.rows)("$projection takes Snyder's x and y back to his point", (row) => {
    const view = unitView(row.projection, row.radius, aimed(row.centre.latDeg, row.centre.lonDeg));
    const [e, n, u] = view.unproject({ xMm: view.centre.xMm + row.x, yMm: view.centre.yMm + row.y })!;
    expect(altitudeDeg(e, n, u)).toBeCloseTo(row.point.latDeg, 5);
    expect(((((azimuthDeg(e, n) - row.point.lonDeg) % 360) + 540) % 360) - 180).toBeCloseTo(0, 5);
  });

  it("puts one point where all five of Snyder's formulas put it", () => {
    const { centre, point, xy, tolerance } = samePointInFive;
    for (const [projection, [x, y]] of Object.entries(xy) as [
      ProjectionName | "gnomonic",
      readonly [number, number],
    ][]) {
      const view = unitView(projection, 1, aimed(centre.latDeg, centre.lonDeg));
      const at = view.projectOne(onSphere(point.latDeg, point.lonDeg))!;
      expect(Math.abs(at.xMm - view.centre.xMm - x)).toBeLessThan(2 * tolerance);
      expect(Math.abs(at.yMm - view.centre.yMm - y)).toBeLessThan(2 * tolerance);
    }
  });

  it("follows the radial laws", () => {
    for (const { cDeg, ...laws } of radialLaw.rows) {
      for (const [projection, expected] of Object.entries(laws) as [ProjectionName | "gnomonic", number][]) {
        if (!Number.isFinite(expected)) continue;
        const view = unitView(projection, 1, zenith);
        const at = view.projectOne(directionOf(90 - cDeg, 33))!;
        expect(Math.hypot(at.xMm - view.centre.xMm, at.yMm - view.centre.yMm)).toBeCloseTo(expected, 5);
      }
    }
  });
});

describe("which way round", () => {
  it("has north up and EAST LEFT, as the sky is seen from below", () => {
    for (const view of [
      makeView(eye(), CEILING, zenith),
      makeView(chart("stereographic", 140), CEILING, zenith),
    ]) {
      const at = (azimuth: number) => view.projectOne(directionOf(60, azimuth))!;
      expect(at(0).yMm).toBeGreaterThan(view.centre.yMm);
      expect(at(0).xMm).toBeCloseTo(view.centre.xMm, 9);
      expect(at(90).xMm).toBeLessThan(view.centre.xMm);
      expect(at(270).xMm).toBeGreaterThan(view.centre.xMm);
      expect(at(180).yMm).toBeLessThan(view.centre.yMm);
    }
  });

  it("puts the top bearing at +Y: y along (sin B, cos B), x along (-cos B, sin B) in (E, N)", () => {
    // Oracle: the definition of the ceiling frame, worked by hand for an eye view: 1350 mm below, a direction (E, N, U) = (0.3, 0.4, 1).
    const b = 20 * RAD;
    const view = makeView(eye({ topBearing: 20 }), CEILING, zenith);
    const at = view.projectOne([
      0.3 / Math.hypot(0.3, 0.4, 1),
      0.4 / Math.hypot(0.3, 0.4, 1),
      1 / Math.hypot(0.3, 0.4, 1),
    ])!;
    expect(at.xMm).toBeCloseTo(2000 + 1350 * (-0.3 * Math.cos(b) + 0.4 * Math.sin(b)), 9);
    expect(at.yMm).toBeCloseTo(1500 + 1350 * (0.3 * Math.sin(b) + 0.4 * Math.cos(b)), 9);
  });

  it("looks like the wall of a room for an aim off the zenith: facing north, east is to the right", () => {
    const view = makeView(eye(), CEILING, aimed(30, 0));
    expect(view.projectOne(directionOf(40, 0))!.yMm).toBeGreaterThan(view.centre.yMm);
    expect(view.projectOne(directionOf(30, 10))!.xMm).toBeGreaterThan(view.centre.xMm);
  });

  it("has celestial north up when asked", () => {
    const view = makeView(eye({ up: "north" }), CEILING, aimed(40, 250));
    const north = view.projectOne(NORTH);
    const towardNorth = view.axes.slice(3, 6) as unknown as Vector3;
    expect(dot(towardNorth, NORTH)).toBeGreaterThan(0);
    expect(dot(view.axes.slice(0, 3) as unknown as Vector3, NORTH)).toBeCloseTo(0, 12);
    expect(north === null || Math.abs(north.xMm - view.centre.xMm) < 1e-6).toBe(true);
  });

  it("uses the top bearing within 0.01 degrees of the zenith, and not beyond", () => {
    const near = makeView(eye({ topBearing: 20 }), CEILING, aimed(89.995, 123));
    const far = makeView(eye({ topBearing: 20 }), CEILING, aimed(89.98, 123));
    const straight = makeView(eye({ topBearing: 20 }), CEILING, zenith);
    expect(near.axes[3]).toBeCloseTo(straight.axes[3], 3);
    // Beyond it +Y is where altitude increases: away from azimuth 123, toward 303.
    expect(azimuthDeg(far.axes[3], far.axes[4])).toBeCloseTo(303, 6);
  });

  it("turns the sky counter-clockwise for a positive roll, seen from below", () => {
    const view = makeView(eye({ roll: 30 }), CEILING, zenith);
    const at = view.projectOne(directionOf(60, 0))!;
    // North was straight up; turned counter-clockwise by 30 degrees it lies up and to the left.
    expect(Math.atan2(at.yMm - 1500, at.xMm - 2000) / RAD).toBeCloseTo(120, 9);
  });

  it("keeps the orientation of any three stars as seen from inside the sphere", () => {
    const unit = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(unit, unit), { minLength: 3, maxLength: 3 }),
        unit,
        unit,
        unit,
        fc.integer({ min: 0, max: 4 }),
        (raw, a, b, c, which) => {
          const aim = aimed(-90 + 180 * a, 360 * b);
          const view = anyView(which, 360 * c, aim);
          // Three directions within 40 degrees of the aim.
          const z = view.axes.slice(6, 9) as unknown as Vector3;
          const x = view.axes.slice(0, 3) as unknown as Vector3;
          const y = view.axes.slice(3, 6) as unknown as Vector3;
          const [p, q, r] = raw.map(([s, t]) => {
            const angle = 40 * RAD * s;
            const turn = 2 * Math.PI * t;
            const [i, j, k] = [
              Math.sin(angle) * Math.cos(turn),
              Math.sin(angle) * Math.sin(turn),
              Math.cos(angle),
            ];
            return [
              i * x[0] + j * y[0] + k * z[0],
              i * x[1] + j * y[1] + k * z[1],
              i * x[2] + j * y[2] + k * z[2],
            ] as Vector3;
          }) as [Vector3, Vector3, Vector3];
          // Seen from inside, p q r turn clockwise when (p x q) . r > 0 (Up x North = West: zenith, north, west ... ).
          const inside = dot(cross(p, q), r);
          const [P, Q, R] = [p, q, r].map((v) => view.projectOne(v)!) as [Point, Point, Point];
          const onCeiling = (Q.xMm - P.xMm) * (R.yMm - P.yMm) - (R.xMm - P.xMm) * (Q.yMm - P.yMm);
          if (Math.abs(inside) < 1e-6) return;
          expect(Math.sign(onCeiling)).toBe(-Math.sign(inside));
        },
      ),
      { seed: 20, numRuns: 300 },
    );
  });
});

interface Point {
  readonly xMm: number;
  readonly yMm: number;
}

const PROJECTIONS = ["stereographic", "equalArea", "equidistant", "orthographic"] as const;
const anyView = (which: number, roll: number, aim: AimedAt): View => {
  const view: ViewPlan = which === 4 ? eye({ roll }) : chart(PROJECTIONS[which]!, 150, { roll });
  return makeView(view, CEILING, aim);
};

describe("there and back", () => {
  it("ceiling points come back to within 1e-9 of the ceiling's size", () => {
    const unit = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(unit, unit, unit, unit, unit, fc.integer({ min: 0, max: 4 }), (sx, sy, a, b, c, which) => {
        const view = anyView(which, 360 * c, aimed(-90 + 180 * a, 360 * b));
        const point = { xMm: sx * CEILING.width, yMm: sy * CEILING.length };
        const direction = view.unproject(point);
        if (direction === null) return; // beyond an orthographic's rim
        expect(Math.hypot(...direction)).toBeCloseTo(1, 12);
        const back = view.projectOne(direction);
        // The rim of an orthographic is its own limit: rounding may push a point over it.
        if (back === null) return void expect(which).toBe(3);
        expect(Math.hypot(back.xMm - point.xMm, back.yMm - point.yMm) / CEILING.width).toBeLessThan(1e-9);
      }),
      { seed: 7, numRuns: 2000 },
    );
  });

  it("turning the room turns nothing else: bearing B and bearing 0 differ by a turn of the picture", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -360, max: 360, noNaN: true }),
        fc.double({ min: 25, max: 90, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        (bearing, altitude, azimuth) => {
          const square = { width: 4000, length: 4000 };
          const at = (topBearing: number) =>
            makeView(chart("equidistant", 140, { topBearing }), square, zenith).projectOne(
              directionOf(altitude, azimuth),
            )!;
          const turned = at(bearing);
          const plain = at(0);
          const angle = -bearing * RAD;
          const dx = plain.xMm - 2000;
          const dy = plain.yMm - 2000;
          // A top bearing of 90 brings east to the top: the sky turns clockwise seen from below (east was at the left).
          expect(turned.xMm - 2000).toBeCloseTo(dx * Math.cos(angle) - dy * Math.sin(angle), 6);
          expect(turned.yMm - 2000).toBeCloseTo(dx * Math.sin(angle) + dy * Math.cos(angle), 6);
        },
      ),
      { seed: 3 },
    );
  });
});

describe("scale and limits", () => {
  it("a chart's span lies across the longer side through the centre", () => {
    for (const projection of PROJECTIONS) {
      const view = makeView(chart(projection, 140), CEILING, zenith);
      const edge = view.unproject({ xMm: 0, yMm: 1500 })!;
      expect(altitudeDeg(...edge)).toBeCloseTo(20, 9);
      expect(azimuthDeg(edge[0], edge[1])).toBeCloseTo(90, 9); // the left edge is east
    }
  });

  it("never folds back what lies behind the eye or beyond the limit", () => {
    expect(makeView(eye(), CEILING, zenith).projectOne(directionOf(0, 10))).toBeNull();
    expect(makeView(eye(), CEILING, zenith).projectOne(directionOf(-20, 10))).toBeNull();
    expect(makeView(chart("orthographic", 180), CEILING, zenith).projectOne(directionOf(-1, 10))).toBeNull();
    expect(makeView(chart("orthographic", 180), CEILING, zenith).unproject({ xMm: 0, yMm: 0 })).toBeNull();
    expect(makeView(chart("equidistant", 360), CEILING, zenith).unproject({ xMm: 0, yMm: 0 })).toBeNull();
    expect(makeView(chart("stereographic", 300), CEILING, zenith).projectOne([0, 0, -1])).toBeNull();
  });

  it("refuses an eye that sees more than 150 degrees, and says how far down is enough", () => {
    const near = eye({ eye: { below: 600, x: 2000, y: 1500 } });
    expect(() => makeView(near, CEILING, zenith)).toThrow(InputError);
    // By hand: the corner is 2500 mm off; 2500 / tan 75 = 669.87 mm.
    expect(() => makeView(near, CEILING, zenith)).toThrow("670 mm");
    expect(() => makeView(eye({ eye: { below: 670, x: 2000, y: 1500 } }), CEILING, zenith)).not.toThrow();
  });

  it("agrees with the gnomonic of ERFA about any star (tpxes)", () => {
    // Oracle: ERFA 2.0.1 t_erfa_c.c: star (1.3, 1.55), tangent point (2.3, 1.5). As on the ground map above, right
    // ascension stands for azimuth, so xi grows to the right.
    const [ra0, dec0] = [2.3 / RAD, 1.5 / RAD];
    const view = unitView("gnomonic", 1, aimed(dec0, ra0));
    const at = view.projectOne(directionOf(1.55 / RAD, 1.3 / RAD))!;
    expect(at.xMm).toBeCloseTo(erfaGnomonic.tpxes.xi, 12);
    expect(at.yMm).toBeCloseTo(erfaGnomonic.tpxes.eta, 12);
  });
});
