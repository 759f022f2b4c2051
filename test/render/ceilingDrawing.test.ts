import sharp from "sharp";
import { beforeAll, describe, expect, it } from "vitest";
import { type CeilingDrawing, ceilingSceneOf, drawCeiling } from "../../src/render/index.ts";
import { symbolsOf } from "../../src/render/sizeSymbols.ts";
import { planAndSchedule } from "../../src/schedule/makeSchedule.ts";
import type { Schedule } from "../../src/schedule/types.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";
import { attribute, elements, group, groupsOf, paperFrame, pieces, words } from "./drawingReader.ts";
import { shippedFont } from "./scenes.ts";

const font = shippedFont();
const draw = (changes: Record<string, unknown>, widthPx?: number) => {
  const { schedule, planned } = planAndSchedule(planWith(changes), testSky());
  return { schedule, drawing: drawCeiling(ceilingSceneOf(schedule, planned.field.view), font, widthPx) };
};

/** A chapel of our own: two rows of panels, battens, a grille and a lamp. */
const CHAPEL = {
  title: 'Chapel <south> & "aisle"',
  view: { kind: "chart", span: 120, topBearing: 90 },
  drawnAs: "fromBelow",
  walls: { top: "altar", left: "window wall" },
  panels: { columns: 2, rows: 2 },
  fabric: { thickness: 1 },
  frame: { batten: { width: 38, depth: 19 }, crossBattens: 1, bored: { brightest: 200, diameter: 10 } },
  keepOut: [
    { id: "air", kind: "grille", x: 500, y: 1200, width: 300, length: 200 },
    { id: "lamp", kind: "luminaire", at: [1900, 450], radius: 60 },
    {
      id: "smoke",
      kind: "detector",
      outline: [
        [1300, 300],
        [1500, 300],
        [1500, 360],
        [1360, 360],
        [1360, 500],
        [1300, 500],
      ],
    },
  ],
  fibre: {
    bundles: { count: 3, strands: { "0.5mm": 80, "0.75mm": 14, "1mm": 5, "1.5mm": 1 } },
    sharing: "ceiling",
  },
};

let schedule: Schedule;
let drawing: CeilingDrawing;
let svg: string;
beforeAll(() => {
  ({ schedule, drawing } = draw(CHAPEL));
  svg = drawing.svg;
});

describe("the working drawing's holes", () => {
  it("have the symbols that the plan's sizes have on every sheet, with a size among them that has no strands", () => {
    const { drawing: odd } = draw({
      fibre: {
        sizes: [
          { diameter: 0.55, bit: 0.65 },
          { diameter: 0.6, bit: 0.7 },
          { diameter: 0.8, bit: 0.9 },
        ],
        bundles: { count: 1, strands: { "0.6mm": 60, "0.8mm": 20 } },
      },
    });
    const drawn = groupsOf(group(odd.svg, "holes"), "size").map((size) => [
      attribute(size, "data-diameter-mm"),
      attribute(size, "data-symbol"),
    ]);
    const symbols = symbolsOf([0.55, 0.6, 0.8]);
    // The thinnest last: small marks lie on large ones.
    expect(drawn).toEqual([0.8, 0.6].map((mm) => [String(mm), symbols.get(mm)!.name]));
  });

  it("are those of the schedule, each once, at its drilled place in ceiling mm, among its own size", () => {
    const drawn = groupsOf(group(svg, "holes"), "size").flatMap((size) =>
      elements(size, "use").map((use) => ({
        hole: attribute(use, "id").replace(/^hole-/, ""),
        ceilingXMm: Number(attribute(use, "x")),
        ceilingYMm: Number(attribute(use, "y")),
        diameterMm: Number(attribute(size, "data-diameter-mm")),
        bitMm: Number(attribute(size, "data-bit-mm")),
      })),
    );
    const wanted = schedule.holes.map(({ hole, ceilingXMm, ceilingYMm, diameterMm, bitMm }) => ({
      hole,
      ceilingXMm,
      ceilingYMm,
      diameterMm,
      bitMm,
    }));
    const byId = (a: { hole: string }, b: { hole: string }) => (a.hole < b.hole ? -1 : 1);
    expect(drawn.sort(byId)).toEqual(wanted.sort(byId));
  });

  it("come out at the stated scale, seen from below, in the colour of their size, in pixels of another renderer", async () => {
    // librsvg, through sharp, reads the transforms for itself; places are worked out from the printed scale and the drawn edge.
    const pxPerMm = 12;
    const { drawing: large } = draw(CHAPEL, 420 * pxPerMm);
    const { data, info } = await sharp(Buffer.from(large.svg), { unlimited: true })
      .flatten()
      .removeAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    const { denominator, left, bottom } = paperFrame(large.svg);
    const colourAt = (xMm: number, yMm: number) => {
      const at = (Math.floor(yMm * pxPerMm) * info.width + Math.floor(xMm * pxPerMm)) * 3;
      return `#${[0, 1, 2].map((c) => data[at + c]!.toString(16).padStart(2, "0")).join("")}`.toUpperCase();
    };
    const colours: Record<number, string> = { 0.5: "#0072B2", 0.75: "#D55E00", 1: "#009E73", 1.5: "#CC79A7" };
    let [right, mirrored] = [0, 0];
    for (const { ceilingXMm, ceilingYMm, diameterMm } of schedule.holes) {
      const y = bottom - ceilingYMm / denominator;
      if (colourAt(left + ceilingXMm / denominator, y) === colours[diameterMm]) right++;
      if (colourAt(left + (2400 - ceilingXMm) / denominator, y) === colours[diameterMm]) mirrored++;
    }
    // A neighbour, or a word's rim, may lie on a centre.
    expect(right).toBeGreaterThan(0.95 * schedule.holes.length);
    expect(mirrored).toBeLessThan(0.1 * schedule.holes.length);
  });

  it("have an arrow from the true place where the shift is as long as the legend says, and only there", () => {
    const legend = words(group(svg, "legend"));
    const from = Number(/of (\d+) mm or more/.exec(legend.join("\n"))![1]);
    const moved = schedule.holes.filter(({ shiftMm }) => shiftMm >= from);
    expect(moved.length).toBeGreaterThan(5);
    expect(moved.length).toBeLessThan(schedule.holes.length);
    const arrows = elements(group(svg, "shifts"), "path");
    expect(arrows.map((arrow) => attribute(arrow, "id")).sort()).toEqual(
      moved.map(({ hole }) => `shift-${hole}`).sort(),
    );
    expect(legend[legend.findIndex((text) => text.startsWith("shift from")) + 1]).toBe(String(moved.length));
    for (const arrow of arrows) {
      const hole = moved.find(({ hole: id }) => `shift-${id}` === attribute(arrow, "id"))!;
      const [x0, y0, x1, y1] = pieces(attribute(arrow, "d"))[0]!;
      expect([x0, y0]).toEqual([hole.skyXMm, hole.skyYMm]);
      // Its tip lies on the way to the hole, and short of it.
      const [dx, dy] = [hole.ceilingXMm - x0, hole.ceilingYMm - y0];
      expect(Math.abs((x1 - x0) * dy - (y1 - y0) * dx) / Math.hypot(dx, dy)).toBeLessThan(0.02);
      expect(Math.hypot(x1 - x0, y1 - y0)).toBeLessThan(Math.hypot(dx, dy));
      expect((x1 - x0) * dx + (y1 - y0) * dy).toBeGreaterThan(0);
    }
  });

  it("through a batten wear a ring, and are listed", () => {
    const bored = schedule.panels.flatMap(({ boredHoles }) => boredHoles);
    expect(bored.length).toBeGreaterThan(0);
    const rings = elements(group(svg, "reliefs"), "circle");
    expect(rings.map((ring) => attribute(ring, "id")).sort()).toEqual(
      bored.map((hole) => `relief-${hole}`).sort(),
    );
    for (const ring of rings) {
      const hole = schedule.holes.find(({ hole: id }) => `relief-${id}` === attribute(ring, "id"))!;
      expect([Number(attribute(ring, "cx")), Number(attribute(ring, "cy"))]).toEqual([
        hole.ceilingXMm,
        hole.ceilingYMm,
      ]);
      expect(Number(attribute(ring, "r"))).toBeGreaterThanOrEqual(5); // never smaller than the relief hole
    }
    const listed = words(group(svg, "legend")).join(" ");
    for (const hole of bored) expect(listed).toMatch(new RegExp(`\\b${hole}\\b`));
  });
});

describe("the working drawing's legend and title", () => {
  it("count the holes of each fibre, and all of them", () => {
    const legend = words(group(svg, "legend"));
    const countBeside = (text: string) => Number(legend[legend.indexOf(text) + 1]);
    let sum = 0;
    for (const { diameterMm, bitMm, used } of schedule.fidelity.strands.filter(({ used }) => used > 0)) {
      expect(countBeside(`${diameterMm} mm fibre, bit ${bitMm} mm`)).toBe(used);
      sum += used;
    }
    expect(countBeside("all holes")).toBe(sum);
    expect(countBeside("screw into a batten")).toBe(
      schedule.panels.flatMap(({ screwsMm }) => screwsMm).length,
    );
    expect(countBeside("hanging point")).toBe(schedule.panels.flatMap(({ hangersMm }) => hangersMm).length);
  });

  it("say what, where, when, from which side, at which scale, and who decides", () => {
    const title = words(group(svg, "title-block"));
    for (const text of [CHAPEL.title, "SEEN FROM BELOW", "41.1500° N 8.6100° W", "UTC 2004-02-29 23:30:00"])
      expect(title).toContain(text);
    expect(title.join("\n")).toMatch(/Scale 1 : 10 on A3 \(420 × 297 mm\)\. All measures in mm\./);
    expect(title).toContain("altar (top edge) lies toward 90.0 degrees, TRUE");
    expect(words(svg).join(" ")).toContain(
      "Local codes and licensed trades decide; keep grilles, detectors clear and open.",
    );
  });

  it("have north where it is: with the top to the east it lies to the right, seen from below", () => {
    // Looking up with east ahead, south is at the left hand's side mirrored: +X = (-cos 90, sin 90) in (east, north) = north.
    const { right, bottom, top } = paperFrame(svg);
    const [cx, cy] = ["cx", "cy"].map((name) =>
      Number(attribute(elements(group(svg, "north"), "circle")[0]!, name)),
    );
    const [tipX, tipY] = pieces(attribute(elements(group(svg, "north"), "path")[0]!, "d"))[0]!;
    expect(tipX! - cx!).toBeGreaterThan(3);
    expect(Math.abs(tipY! - cy!)).toBeLessThan(0.02);
    const compass = groupsOf(svg, "compass").map((mark) => ({
      letter: words(mark)[0],
      at: /translate\(([\d.]+) ([\d.]+)\)/.exec(mark)!.slice(1).map(Number),
    }));
    expect(compass.map(({ letter }) => letter).sort()).toEqual(["E", "N", "S", "W"]);
    const north = compass.find(({ letter }) => letter === "N")!.at;
    expect(north[0]).toBeGreaterThan(right);
    expect(north[1]).toBeGreaterThan(top);
    expect(north[1]).toBeLessThan(bottom);
    expect(compass.find(({ letter }) => letter === "E")!.at[1]).toBeLessThan(top);
  });

  it("have a bar as long as it says", () => {
    const bar = group(svg, "scale-bar");
    const frame = /h([\d.]+)v1\.4h-/.exec(attribute(elements(bar, "path")[1]!, "d"))!;
    expect(Number(frame[1]) * paperFrame(svg).denominator).toBeCloseTo(Number(attribute(bar, "data-mm")), 1);
    expect(words(bar)).toContain(`${attribute(bar, "data-mm")} mm`);
  });
});

describe("the working drawing's dimensions", () => {
  const chainOf = (drawn: string, wall: string, kind = "chain") =>
    groupsOf(drawn, kind).find((one) => attribute(one, "data-wall") === wall)!;

  it("are the plan's: perimeter, panel, gap, panel, perimeter, and the whole", () => {
    // By hand: (2400 - 2 x 10 - 3) / 2 = 1188.5; (1800 - 2 x 10 - 3) / 2 = 888.5.
    expect(words(chainOf(svg, "bottom")).sort()).toEqual(["10", "10", "1188.5", "1188.5", "3"]);
    expect(words(chainOf(svg, "left")).sort()).toEqual(["10", "10", "3", "888.5", "888.5"]);
    expect(words(chainOf(svg, "bottom", "overall"))).toEqual(["2400"]);
    expect(words(chainOf(svg, "left", "overall"))).toEqual(["1800"]);
    for (const { id } of schedule.panels) expect(words(svg).join(" ")).toContain(`${id} 1188.5 × 888.5`);
  });

  it("run from extension line to extension line at the panels' edges", () => {
    const { denominator, left, bottom } = paperFrame(svg);
    const drawn = (wall: string, coordinate: 0 | 1) =>
      pieces(attribute(elements(chainOf(svg, wall), "path")[0]!, "d")).map((piece) => piece[coordinate]);
    for (const [i, mm] of [0, 10, 1198.5, 1201.5, 2390, 2400].entries())
      expect(drawn("bottom", 0)[i]).toBeCloseTo(left + mm / denominator, 1.99);
    for (const [i, mm] of [0, 10, 898.5, 901.5, 1790, 1800].entries())
      expect(drawn("left", 1)[i]).toBeCloseTo(bottom - mm / denominator, 1.99);
  });

  it("name what no row of them places, and the sides of panels that are no rectangles", () => {
    // Worked by hand: an L, a panel in its notch that both rows hide, and one beside them.
    const { drawing: ell } = draw({
      panels: [
        {
          id: "L",
          outline: [
            [10, 10],
            [1500, 10],
            [1500, 700],
            [800, 700],
            [800, 1790],
            [10, 1790],
          ],
        },
        { id: "notch", x: 803, y: 703, width: 700, length: 500 },
        { id: "top", x: 803, y: 1300, width: 1500, length: 490 },
        { id: "east", x: 1600, y: 10, width: 700, length: 1200 },
      ],
      fibre: { ...CHAPEL.fibre },
    });
    const names = new Map(
      groupsOf(ell.svg, "panel-name").map((one) => [attribute(one, "data-panel"), words(one)]),
    );
    expect(names.get("notch")).toEqual(["notch", "700 × 500", "803 from left wall", "703 from bottom wall"]);
    expect(names.get("L")![1]).toBe("1490 × 1780 over all");
    const sides = groupsOf(ell.svg, "side").map((side) => [attribute(side, "data-panel"), words(side)[0]]);
    expect(sides).toEqual(["1490", "690", "700", "1090", "790", "1780"].map((mm) => ["L", mm]));
    // Which the L's box hides from the top, and nothing from the right.
    expect(names.get("top")).toEqual(["top", "1500 × 490", "803 from left wall"]);
    expect(words(chainOf(ell.svg, "right"))).toContain("490");
  });
});

describe("the working drawing's keep-outs", () => {
  it("are dimensioned from two named walls, as measured", () => {
    const dimensions = (id: string) =>
      groupsOf(group(svg, "inside-words"), "dimension")
        .filter((one) => attribute(one, "data-keepout") === id)
        .map((one) => [attribute(one, "data-wall"), words(one)[0]]);
    // By hand from the plan: 500 from the left; 1800 - 1200 - 200 = 400 from the top. Centre of the lamp: 2400 - 1900, and 450 up.
    expect(dimensions("air")).toEqual([
      ["left", "500"],
      ["top", "400"],
    ]);
    expect(dimensions("lamp")).toEqual([
      ["right", "500"],
      ["bottom", "450"],
    ]);
    expect(dimensions("smoke")).toEqual([
      ["right", "900"],
      ["bottom", "300"],
    ]);
    const legend = words(group(svg, "legend")).join(" ");
    expect(legend).toContain("air (grille) 300 × 200: edge 500 from window wall, 400 from altar.");
    expect(legend).toContain("lamp (luminaire) Ø 120: centre 500 from right wall, 450 from bottom wall.");
    const labels = groupsOf(group(svg, "inside-words"), "keepout-label").map((one) => words(one)[0]);
    expect(labels).toEqual(["grille air 300 × 200", "luminaire lamp Ø 120", "detector smoke 200 × 200"]);
  });

  it("are dimensioned from the walls that are there, in a room that is no rectangle", () => {
    const { drawing: nook } = draw({
      view: { kind: "chart", span: 120 },
      drawnAs: "fromBelow",
      walls: { left: "shelves" },
      ceiling: {
        // Its right wall slants: x = 3000 + y / 10. The nook at the upper left is 600 x 500.
        outline: [
          [0, 0],
          [3000, 0],
          [3200, 2000],
          [600, 2000],
          [600, 1500],
          [0, 1500],
        ],
      },
      panels: [{ id: "P", x: 700, y: 100, width: 2200, length: 1800 }],
      keepOut: [
        { id: "beam", kind: "other", at: [2800, 800], radius: 50 },
        { id: "vent", kind: "grille", x: 800, y: 1700, width: 200, length: 100 },
      ],
    });
    const figures = (id: string) =>
      groupsOf(group(nook.svg, "inside-words"), "dimension")
        .filter((one) => attribute(one, "data-keepout") === id)
        .map((one) => [attribute(one, "data-wall"), words(one)[0]]);
    // By hand: at y = 800 the right wall stands at 3080, 280 from the beam's centre; the vent lies 200 from the nook's side.
    expect(figures("beam")).toEqual([
      ["right", "280"],
      ["bottom", "800"],
    ]);
    expect(figures("vent")).toEqual([
      ["left", "200"],
      ["top", "200"],
    ]);
    const edge = elements(nook.svg, "path").find((path) => attribute(path, "id") === "ceiling-edge")!;
    const corners = attribute(edge, "d")
      .replace(/^M|Z$/g, "")
      .split("L")
      .map((point) => point.split(" ").map(Number));
    const denominator = Number(/Scale 1 : ([\d.]+)/.exec(words(nook.svg).join(" "))![1]);
    const sides = corners.map(([x, y], i) => {
      const [u, v] = corners[(i + 1) % corners.length]!;
      return Math.round((Math.hypot(u! - x!, v! - y!) * denominator) / 10) * 10;
    });
    expect(sides).toEqual([3000, 2010, 2600, 500, 600, 1500]);
  });

  it("have their dimension lines on paper as long as the figure says, from the wall's edge", () => {
    const { denominator, left, right, top, bottom } = paperFrame(svg);
    const walls: Record<string, number> = { left, right, top, bottom };
    const lines = groupsOf(group(svg, "inside-lines"), "dimension");
    expect(lines).toHaveLength(6);
    for (const line of lines) {
      const [x0, y0, x1, y1] = pieces(attribute(elements(line, "path")[0]!, "d"))[0]!;
      const wall = attribute(line, "data-wall");
      expect(wall === "left" || wall === "right" ? x0 : y0).toBeCloseTo(walls[wall]!, 1.99);
      expect(Math.hypot(x1 - x0, y1 - y0) * denominator).toBeCloseTo(Number(attribute(line, "data-mm")), 0);
      expect(x0 === x1 || y0 === y1).toBe(true);
    }
  });

  it("are hatched all over and nowhere else", () => {
    // Lines a pitch apart cover an area A with a length of A / pitch: closed forms for rectangle, circle, L.
    const areas = { air: 300 * 200, lamp: Math.PI * 60 ** 2, smoke: 200 * 60 + 60 * 140 };
    const inside = {
      air: (x: number, y: number) => x >= 500 && x <= 800 && y >= 1200 && y <= 1400,
      lamp: (x: number, y: number) => Math.hypot(x - 1900, y - 450) <= 60,
      smoke: (x: number, y: number) =>
        x >= 1300 && y >= 300 && ((x <= 1500 && y <= 360) || (x <= 1360 && y <= 500)),
    };
    const pitchMm = 1.8 * paperFrame(svg).denominator;
    for (const id of ["air", "lamp", "smoke"] as const) {
      const hatch = elements(group(svg, `keepout-${id}`), "path").find(
        (path) => attribute(path, "class") === "hatch",
      )!;
      const strokes = pieces(attribute(hatch, "d"));
      const length = strokes.reduce((sum, [x0, y0, x1, y1]) => sum + Math.hypot(x1 - x0, y1 - y0), 0);
      expect((length * pitchMm) / areas[id]).toBeGreaterThan(0.8);
      expect((length * pitchMm) / areas[id]).toBeLessThan(1.2);
      for (const [x0, y0, x1, y1] of strokes)
        for (const part of [0.01, 0.25, 0.5, 0.75, 0.99])
          expect(inside[id](x0 + part * (x1 - x0), y0 + part * (y1 - y0))).toBe(true);
    }
  });

  it("measured on a reflected plan are drawn as seen from below", () => {
    const { drawing: reflected } = draw({ ...CHAPEL, drawnAs: "reflectedPlan" });
    const air = elements(group(reflected.svg, "keepout-air"), "path")[0]!;
    const xs = pieces(attribute(air, "d")).map(([x]) => x);
    expect([Math.min(...xs), Math.max(...xs)]).toEqual([2400 - 800, 2400 - 500]);
    expect(words(reflected.svg).join(" ")).toContain(
      "air (grille) 300 × 200: edge 500 from right wall, 400 from altar.",
    );
  });
});

describe("the working drawing's panels", () => {
  it("have finished outline and board, and behind them the schedule's battens, screws and hanging points", () => {
    const paths = (id: string) => elements(group(svg, id), "path");
    const ring = (path: string) => pieces(attribute(path, "d")).map(([x, y]) => [x, y]);
    const near = (
      drawn: number[][],
      xMm: number,
      yMm: number,
      face: readonly (readonly [number, number])[],
    ) => {
      expect(drawn).toHaveLength(face.length);
      for (const [i, [x, y]] of face.entries()) {
        expect(drawn[i]![0]).toBeCloseTo(xMm + x, 1.7);
        expect(drawn[i]![1]).toBeCloseTo(yMm + y, 1.7);
      }
    };
    for (const { id, xMm, yMm, outlineMm, finishedOutlineMm, battensMm } of schedule.panels) {
      near(
        ring(paths("boards").find((path) => attribute(path, "id") === `board-${id}`)!),
        xMm,
        yMm,
        outlineMm,
      );
      near(
        ring(paths("panels").find((path) => attribute(path, "id") === `panel-${id}`)!),
        xMm,
        yMm,
        finishedOutlineMm,
      );
      const battens = paths("battens").filter((path) => attribute(path, "data-panel") === id);
      expect(battens).toHaveLength(battensMm.length);
      for (const [i, batten] of battens.entries()) near(ring(batten), xMm, yMm, battensMm[i]!);
    }
    expect(attribute(svg.slice(svg.indexOf('<g id="battens"')), "stroke-dasharray")).toMatch(/^\d/);
    for (const [id, key] of [
      ["screws", "screwsMm"],
      ["hangers", "hangersMm"],
    ] as const) {
      const drawn = elements(group(svg, id), "use").map((use) => [
        Number(attribute(use, "x")),
        Number(attribute(use, "y")),
      ]);
      const wanted = schedule.panels.flatMap((panel) =>
        panel[key].map(([x, y]) => [panel.xMm + x, panel.yMm + y]),
      );
      expect(drawn).toHaveLength(wanted.length);
      for (const [i, [x, y]] of wanted.entries()) {
        expect(drawn[i]![0]).toBeCloseTo(x!, 1.7);
        expect(drawn[i]![1]).toBeCloseTo(y!, 1.7);
      }
    }
  });

  it("stand between walls with their names", () => {
    const walls = new Map(
      groupsOf(svg, "wall").map((wall) => [attribute(wall, "data-wall"), words(wall)[0]]),
    );
    expect(Object.fromEntries(walls)).toEqual({
      top: "altar",
      right: "right wall",
      bottom: "bottom wall",
      left: "window wall",
    });
  });
});

describe("the working drawing as a file", () => {
  it("is the same bytes each time, all its text outlines", () => {
    expect(draw(CHAPEL).drawing.svg).toBe(svg);
    expect(svg).not.toContain("<text");
    expect(svg).toContain('width="420mm" height="297mm" viewBox="0 0 420 297"');
    expect(drawing.missingCharacters).toEqual([]);
    expect(draw({ walls: { top: "木" } }).drawing.missingCharacters).toEqual(["木"]);
  });

  it("has each id once", () => {
    const ids = [...svg.matchAll(/ id="([^"]*)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, target] of svg.matchAll(/href="#([^"]*)"/g)) expect(ids).toContain(target);
  });
});
