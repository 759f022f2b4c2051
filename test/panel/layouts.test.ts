import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { UnbuildableError } from "../../src/plan/errors.ts";
import { scheduleFrom } from "../../src/schedule/makeSchedule.ts";
import { validateSchedule } from "../../src/schedule/validate.ts";
import { testSky } from "../sky/testSky.ts";
import { bruteFaults, looseFixings } from "./bruteForce.ts";
import { layouts, planOf, strewnSky } from "./randomLayouts.ts";

/** LAYOUTS=20000 npx vitest run test/panel/layouts.test.ts tries more of them, SEED=... the same again. */
const RUNS = Number(process.env.LAYOUTS ?? 1000);
const SEED = Number(process.env.SEED ?? 20_260_729);

describe("holes on any panels", () => {
  it(`keep every rule exactly, by a second reckoning (seed ${SEED})`, () => {
    let [built, holes, bored] = [0, 0, 0];
    fc.assert(
      fc.property(layouts, (layout) => {
        const plan = planOf(layout);
        try {
          const schedule = scheduleFrom(plan, testSky(), strewnSky(layout.seed, 90));
          built++;
          holes += schedule.holes.length;
          expect(bruteFaults(schedule)).toEqual([]);
          expect(looseFixings(schedule)).toEqual([]);
          bored += schedule.panels.reduce((sum, { boredHoles }) => sum + boredHoles.length, 0);
          expect(validateSchedule(schedule)).toEqual([]);
        } catch (error) {
          if (!(error instanceof UnbuildableError)) throw error;
        }
      }),
      { numRuns: RUNS, seed: SEED },
    );
    // Not an empty claim: most layouts can be built and hold a dozen holes.
    expect(built).toBeGreaterThan(0.7 * RUNS);
    expect(holes).toBeGreaterThan(10 * built);
    expect(bored).toBeGreaterThan(0.1 * built);
  }, 600_000);
});
