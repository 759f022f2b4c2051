import { describe, expect, it } from "vitest";
import { partsUnder } from "../../src/panel/frameFaults.ts";
import { toLoop } from "./bruteForce.ts";
import { refused, scheduled } from "./strewn.ts";

const BATTEN = { width: 38, depth: 38 };
const warned = (changes: Record<string, unknown>) => scheduled(changes).warnings.join("\n");
const rectangle = (id: string, x: number, y: number, width: number, length: number) => ({
  id,
  x,
  y,
  width,
  length,
});

describe("a frame that cannot be", () => {
  it("has a batten on a panel that is not there, or of no length: the plan's text is wrong", () => {
    const on = (panel: string, from: number[], to: number[]) =>
      refused({ frame: { batten: BATTEN, battens: [{ panel, from, to }] } });
    expect(on("B7", [0, 0], [100, 0])).toMatch(
      /InputError.*frame\.battens\[0\]\.panel: there is no panel "B7"; there are A1/,
    );
    expect(on("A1", [50, 60], [50, 60])).toMatch(/InputError.*frame\.battens\[0\].*one point/);
  });

  it("has a batten that misses its board: geometry", () => {
    const message = refused({
      frame: { batten: BATTEN, battens: [{ panel: "A1", from: [2500, 100], to: [2500, 900] }] },
    });
    expect(message).toMatch(
      /UnbuildableError panel A1: its batten from \[2500, 100\] .* misses the board of 2380 x 1780/,
    );
  });

  it("leaves no legal area anywhere; on one of several panels that is a warning", () => {
    const narrow = rectangle("strip", 0, 0, 2400, 80);
    const frame = { batten: BATTEN };
    expect(refused({ panels: [narrow], frame })).toMatch(
      /UnbuildableError panel strip: .*battens of 38 mm.*leave no place.*make the panel larger or the margin smaller/,
    );
    expect(warned({ panels: [narrow, rectangle("rest", 0, 90, 2400, 1700)], frame })).toMatch(
      /panel strip: .*it gets no holes; make it larger or the margin smaller/,
    );
    expect(refused({ holes: { edge: 1200 } })).toMatch(/UnbuildableError panel A1: holes\.edge of 1200 mm/);
  });
});

describe("what may be a slip is a warning that names the panel", () => {
  it("a batten that runs past the board is cut there", () => {
    const battens = [{ panel: "A1", from: [100, 500], to: [2500, 500] }];
    const schedule = scheduled({ frame: { batten: BATTEN, battens, crossBattens: 0 } });
    // By hand: the board is 2380 wide.
    expect(schedule.warnings.join("\n")).toContain("runs 120 mm past the board");
    const own = schedule.panels[0]!.battensMm.at(-1)!;
    expect(Math.max(...own.map(([x]) => x))).toBe(2380);
  });

  it("a batten that meets a keep-out stays drawn", () => {
    const frame = { batten: BATTEN, crossBattens: 1 };
    const plain = scheduled({ frame });
    // The cross batten's centre is at 10 + 1190.
    const keepOut = [{ id: "lamp", kind: "luminaire", at: [1230, 900], radius: 40 }];
    const met = scheduled({ frame, keepOut });
    expect(met.warnings.join("\n")).toContain(
      "panel A1: a cross batten meets the luminaire lamp; it stays drawn",
    );
    expect(met.panels[0]!.battensMm).toEqual(plain.panels[0]!.battensMm);
    // Flush beside it (1200 + 19) is well made.
    const flush = [{ id: "grille", kind: "grille", x: 1219, y: 800, width: 200, length: 100 }];
    expect(warned({ frame, keepOut: flush })).not.toContain("meets");
    expect(warned({ frame, keepOut: [{ ...flush[0], x: 1217 }] })).toContain(
      "a cross batten meets the grille",
    );
  });

  it("a slim strip", () => {
    expect(warned({ panels: [rectangle("A", 0, 0, 2400, 55), rectangle("B", 0, 60, 2400, 1700)] })).toContain(
      "panel A: its board is a strip of 55 mm",
    );
    expect(
      warned({ panels: [rectangle("A", 0, 0, 2400, 60), rectangle("B", 0, 61, 2400, 1700)] }),
    ).not.toContain("strip");
  });

  const cutL = (web: number) => [
    [0, 0],
    [1000, 0],
    [1000, web],
    [400, web],
    [400, 900],
    [0, 900],
  ];
  it("an L whose arm is cut to less than 60 mm, and how wide that is", () => {
    expect(warned({ panels: [{ id: "L", outline: cutL(45) }] })).toMatch(
      /panel L: the board is only about 4[56] mm wide about \[7\d\d(\.\d)?, 2\d(\.\d)?\]/,
    );
    expect(warned({ panels: [{ id: "L", outline: cutL(61) }] })).not.toContain("webs under");
  });

  it("a neck between two wide parts", () => {
    const neck = [
      [0, 0],
      [1000, 0],
      [1000, 600],
      [520, 600],
      [520, 50],
      [500, 50],
      [500, 600],
      [0, 600],
    ];
    expect(warned({ panels: [{ id: "N", outline: neck }] })).toMatch(
      /panel N: the board is only about 5[01] mm wide/,
    );
  });

  it("but not the corners of sound boards, sharp, cut off or notched", () => {
    const triangle = [
      [0, 0],
      [900, 0],
      [300, 700],
    ] as const;
    const chamfered = [
      [20, 0],
      [900, 0],
      [900, 480],
      [880, 500],
      [0, 500],
      [0, 20],
    ] as const;
    for (const outline of [triangle, chamfered]) expect(partsUnder(outline, 60)).toEqual([]);
  });
});

describe("holes that a chuck does not reach between battens", () => {
  const frame = { batten: BATTEN, crossBattens: 1, bored: { brightest: 5, diameter: 10 } };
  it("are to be bored first: nearer than its radius to a side of a batten, or on one", () => {
    const { panels, holes, warnings } = scheduled({ frame });
    const [panel] = panels;
    // By hand: the chuck's nose is 15 - 6 = 9 mm above the back, the battens are 38 deep; its radius is 22.
    const first = new Set(panel!.boreFirst);
    const relief = new Set(panel!.boredHoles);
    expect(relief.size).toBeGreaterThan(0);
    for (const { hole, xMm, yMm } of holes) {
      const off = Math.min(...panel!.battensMm.map((ring) => toLoop([xMm, yMm], ring)));
      expect([hole, first.has(hole)]).toEqual([hole, off < 22 || relief.has(hole)]);
    }
    expect(first.size).toBeGreaterThan(relief.size);
    expect(first.size).toBeLessThan(holes.length);
    expect(warnings.join("\n")).toMatch(
      new RegExp(
        `${first.size} holes cannot be bored from behind .* 9 mm above .*\\(A1 ${first.size}; listed as boreFirst`,
      ),
    );
  });

  it("are none when the bit stands out farther than board and batten, or without a frame", () => {
    for (const changes of [{ frame, drill: { projection: 44 } }, {}]) {
      const { panels, warnings } = scheduled(changes);
      expect(panels[0]!.boreFirst).toEqual([]);
      expect(warnings.join()).not.toContain("bored from behind");
    }
    // A chuck without width leaves those that the batten itself is in the way of.
    const [panel] = scheduled({
      frame: { ...frame, bored: { brightest: 40, diameter: 10 } },
      drill: { chuckRadius: 0 },
    }).panels;
    expect(panel!.boreFirst.length).toBeGreaterThan(0);
    for (const hole of panel!.boreFirst) expect(panel!.boredHoles).toContain(hole);
  });
});
