import { describe, expect, it } from "vitest";
import { checkReport } from "../../src/outputs/checkReport.ts";
import { validateSchedule } from "../../src/schedule/validate.ts";
import { refused, scheduled } from "../panel/strewn.ts";

const grid = { columns: 3, rows: 2 };

describe("a keep-out over whole panels", () => {
  const over = (width: number) => [{ id: "big", kind: "grille", x: 0, y: 0, width, length: 1800 }];
  it("is named once with all of them, and what to change", () => {
    const message = refused({ panels: grid, keepOut: over(2400) });
    expect(message).toMatch(
      /^UnbuildableError panels A1, A2, A3, B1, B2 and B3: keep-out big \(grille\) with .* leaves no place; make the panels larger or that keep-out smaller, or move it$/,
    );
    const { warnings } = scheduled({ panels: grid, keepOut: over(800) });
    expect(warnings.filter((warning) => warning.includes("no place"))).toEqual([
      expect.stringMatching(
        /^panels A1 and B1: keep-out big \(grille\) .*: they get no holes; make them larger or that keep-out smaller/,
      ),
    ]);
  });

  it("is not to blame where the margins leave no place anyway", () => {
    expect(refused({ panels: grid, keepOut: over(800), holes: { edge: 500 } })).toMatch(
      /panels A1, .* and B3: holes\.edge of 500 mm and a 0\.6 mm bit leave no place/,
    );
  });
});

describe("an inset that leaves no edge battens", () => {
  const frame = {
    batten: { width: 38, depth: 19 },
    crossBattens: 1,
    bored: { brightest: 60, diameter: 10 },
  };
  const panels = [
    { id: "A", x: 10, y: 10, width: 600, length: 1000 },
    { id: "B", x: 620, y: 10, width: 1770, length: 1000 },
  ];
  it("leaves no holes on that panel, bored or not; on all panels it cannot be built", () => {
    // By hand: twice 310 is more than 600.
    const schedule = scheduled({ panels, frame: { ...frame, inset: 310 } });
    expect(schedule.panels.map(({ holeCount }) => holeCount > 0)).toEqual([false, true]);
    expect(schedule.panels[0]!.hangersMm).toEqual([]);
    expect(schedule.warnings.join("\n")).toContain(
      "panel A: frame.inset of 310 mm leaves no edge battens on a board of 600 x 1000 mm, nothing to hang it from: it gets no holes",
    );
    expect(validateSchedule(schedule)).toEqual([]);
    expect(refused({ panels, frame: { ...frame, inset: 510 } })).toMatch(
      /UnbuildableError frame\.inset of 510 mm leaves no edge battens on panels A and B, so nothing to hang them from/,
    );
  });

  it("bored stars sit on a batten, and check names each", () => {
    const schedule = scheduled({ panels: { columns: 2, rows: 1 }, frame });
    const bored = schedule.panels.flatMap(({ boredHoles }) => boredHoles);
    expect(bored.length).toBeGreaterThan(3);
    const report = checkReport(schedule, null);
    expect(report).toMatch(
      /holes go through a batten: bore it there with a relief hole of 10 mm before gluing: /,
    );
    const brightest = schedule.holes
      .filter(({ hole }) => bored.includes(hole))
      .sort((a, b) => a.mag! - b.mag!)
      .slice(0, 3);
    for (const { hole, panel } of brightest) expect(report).toContain(`${hole} (panel ${panel})`);
  });
});

describe("what cannot be meant", () => {
  const batten = { width: 19, depth: 60 };
  it("battens deeper than the cavity: not to be built", () => {
    expect(refused({ frame: { batten }, cavity: 59 })).toMatch(
      /UnbuildableError frame\.batten\.depth of 60 mm does not fit into a cavity of 59 mm/,
    );
    expect(refused({ frame: { batten }, cavity: 60 })).toBe("");
  });

  it("a corner that an outline repeats, at its end or in a row", () => {
    const square = [
      [0, 0],
      [2400, 0],
      [2400, 1800],
      [0, 1800],
    ];
    const closed = [...square, [0, 0]];
    const doubled = [...square.slice(0, 2), [2400, 0], ...square.slice(2)];
    for (const [outline, words] of [
      [closed, "the corner [0, 0] first and last"],
      [doubled, "the corner [2400, 0] twice in a row"],
    ] as const) {
      expect(refused({ panels: [{ id: "P", outline }] })).toContain(`panel P: its outline lists ${words}`);
      expect(refused({ ceiling: { outline } })).toContain(`ceiling: its outline lists ${words}`);
      expect(refused({ ceiling: { outline } })).toContain("leave out the repeated corner");
      expect(refused({ ceiling: { outline } })).not.toContain("crosses");
    }
  });

  it("a keep-out's upTo that no star can use", () => {
    const keepOut = (more: Record<string, unknown>) =>
      scheduled({
        keepOut: [{ id: "lamp", kind: "luminaire", at: [900, 900], radius: 40, ...more }],
      }).warnings.join("\n");
    expect(keepOut({ upTo: 80 })).toContain(
      "keep-out lamp (luminaire): upTo of 80 mm is more than holes.maxShift of 60 mm",
    );
    expect(keepOut({ upTo: 40, stars: "drop" })).toContain("upTo of 40 mm has no effect, since stars: drop");
    expect(keepOut({ upTo: 60 })).not.toContain("upTo");
  });

  it("battens of two kinds meet a keep-out", () => {
    const met = scheduled({
      frame: { batten: { width: 38, depth: 19 } },
      keepOut: [{ id: "slot", kind: "grille", x: 1100, y: 0, width: 200, length: 900 }],
    });
    expect(met.warnings.join("\n")).toContain(
      "an edge batten and a cross batten meet the grille slot; they stay drawn",
    );
  });
});

describe("neighbours of many panels", () => {
  it("are found by the index as one finds them by eye", () => {
    const { panels } = scheduled({ panels: { columns: 8, rows: 5 } });
    const beside = (id: string) => panels.find((panel) => panel.id === id)!.neighbours;
    expect(beside("A1")).toEqual(["A2", "B1"]);
    expect(beside("C4")).toEqual(["B4", "C3", "C5", "D4"]);
    expect(panels.reduce((sum, { neighbours }) => sum + neighbours.length, 0)).toBe(2 * (7 * 5 + 8 * 4));
  });
});
