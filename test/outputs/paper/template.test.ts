import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { loadSkyData } from "../../../src/cli/dataFiles.ts";
import { templatePdf } from "../../../src/outputs/paper/template.ts";
import { loadPdfFont } from "../../../src/outputs/pdf/font.ts";
import type { Frame } from "../../../src/outputs/proofWords.ts";
import { boardAsCut } from "../../../src/schedule/asCut.ts";
import { makeSchedule } from "../../../src/schedule/makeSchedule.ts";
import type { Schedule } from "../../../src/schedule/types.ts";
import { BASE_PLAN, planWith } from "../../plan/testPlan.ts";
import { type PageRead, popplerIsThere, readPdf, type Stroke } from "./poppler.ts";

const font = loadPdfFont(readFileSync("data/fonts/NotoSans-Regular.ttf"));
const sky = loadSkyData();

/** A porch in two panels, one with a notch, framed, with a lamp. */
const porch = (paper: Record<string, unknown>, more: Record<string, unknown> = {}) =>
  makeSchedule(
    planWith({
      title: "Porch",
      ceiling: { width: 1000, length: 620 },
      drawnAs: "fromBelow",
      walls: { top: "garden wall", right: "street wall", bottom: "house wall", left: "shed wall" },
      panels: [
        {
          id: "L",
          outline: [
            [10, 10],
            [520, 10],
            [520, 610],
            [300, 610],
            [300, 400],
            [10, 400],
          ],
        },
        { id: "R", x: 523, y: 10, width: 467, length: 600 },
      ],
      fabric: { thickness: 0.5 },
      frame: { batten: { width: 38, depth: 19 }, hangers: 4 },
      keepOut: [{ id: "lamp", kind: "luminaire", at: [760, 300], radius: 40 }],
      fibre: { ...BASE_PLAN.fibre, sharing: "ceiling" },
      paper,
      ...more,
    }),
    sky,
  );

const template = (schedule: Schedule, id: string, frame: Frame) =>
  templatePdf(
    frame,
    boardAsCut(schedule.panels.find((panel) => panel.id === id)!, schedule.plan),
    schedule.panels,
    schedule.holes.filter(({ panel }) => panel === id),
    schedule.plan,
    font,
  );

const BLACK = "rgb(0%,0%,0%)";
const near = (a: number, b: number, by: number) => Math.abs(a - b) <= by;
const middle = ({ points }: Stroke) => {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return {
    x: (Math.min(...xs) + Math.max(...xs)) / 2,
    y: (Math.min(...ys) + Math.max(...ys)) / 2,
    widthMm: Math.max(...xs) - Math.min(...xs),
  };
};
/** A straight stroke's ends, or null. */
const straight = ({ points, widthMm, isCurved }: Stroke) =>
  widthMm !== null && !isCurved && points.length === 2 ? ([points[0]!, points[1]!] as const) : null;

/** What a tile says of itself, and where its corner is: the two short thick strokes that meet there. */
function tileOf(page: PageRead) {
  const corner = /Lower-left corner of this tile: x (-?[\d.]+) mm, y (-?[\d.]+) mm/.exec(page.text);
  if (corner === null) return null;
  const thick = page.strokes.filter((stroke) => straight(stroke) && near(stroke.widthMm!, 0.5, 0.01));
  expect(thick).toHaveLength(2);
  const at = thick[0]!.points[0]!;
  expect(thick[1]!.points[0]).toEqual(at);
  return { corner: [Number(corner[1]), Number(corner[2])] as const, at };
}

/** Rings: black, curved, closed. The size's symbol, which may be a circle too, has a colour. */
const rings = (page: PageRead) =>
  page.strokes.filter(
    ({ isCurved, isClosed, widthMm, colour }) => isCurved && isClosed && widthMm !== null && colour === BLACK,
  );

describe.skipIf(!popplerIsThere)(
  "a template, as poppler reads it (skipped without Debian's poppler-utils)",
  () => {
    let schedule: Schedule;
    const read = new Map<string, ReturnType<typeof readPdf>>();
    beforeAll(async () => {
      schedule = porch({});
      for (const id of ["L", "R"])
        for (const frame of ["FACE", "BACK"] as const)
          read.set(`${id} ${frame}`, readPdf(await template(schedule, id, frame)));
    }, 60_000);

    it("has a ring of the bit's size and a cross on every hole within 0.02 mm, whole on some tile, and none elsewhere", () => {
      for (const [key, { pages }] of read) {
        const [id, frame] = key.split(" ") as [string, Frame];
        const board = schedule.panels.find((panel) => panel.id === id)!;
        // DESIGN section 4: xBack = width - xFace, yBack = yFace.
        const wanted = schedule.holes
          .filter(({ panel }) => panel === id)
          .map(({ xMm, yMm, bitMm }) => ({ x: frame === "FACE" ? xMm : board.widthMm - xMm, y: yMm, bitMm }));
        expect(wanted.length).toBeGreaterThan(20);
        const found = pages.flatMap((page) => {
          const tile = tileOf(page);
          if (tile === null) return [];
          return rings(page).map((ring) => {
            const { x, y, widthMm } = middle(ring);
            const crosses = page.strokes.filter(
              (stroke) =>
                !stroke.isCurved &&
                stroke.colour === BLACK &&
                stroke.points.length === 4 &&
                near(middle(stroke).x, x, 0.02) &&
                near(middle(stroke).y, y, 0.02),
            );
            expect(crosses).toHaveLength(1);
            const reach = middle(crosses[0]!).widthMm / 2;
            // The tile shows what lies above and to the right of its corner, up to the words beside it.
            const whole = x - reach > tile.at[0] && y - reach > tile.at[1];
            return {
              x: tile.corner[0] + x - tile.at[0],
              y: tile.corner[1] + y - tile.at[1],
              bitMm: widthMm,
              whole,
            };
          });
        });
        const same = (a: (typeof wanted)[0], b: (typeof wanted)[0]) =>
          near(a.x, b.x, 0.02) && near(a.y, b.y, 0.02) && near(a.bitMm, b.bitMm, 0.01);
        for (const hole of wanted)
          expect([key, hole, found.some((ring) => ring.whole && same(ring, hole))]).toEqual([
            key,
            hole,
            true,
          ]);
        expect(found.filter((ring) => !wanted.some((hole) => same(ring, hole)))).toEqual([]);
      }
    });

    it("is on A4 upright, every font embedded, with a title and a language", () => {
      for (const [key, { info, fonts, pages }] of read) {
        expect(info.get("Title")).toContain(
          key.endsWith("FACE") ? "FACE: as seen from the room" : "BACK: mirrored",
        );
        // ISO 216: 210 x 297 mm.
        for (const page of pages) {
          expect(page.widthMm).toBeCloseTo(210, 2);
          expect(page.heightMm).toBeCloseTo(297, 2);
        }
        expect(fonts.length).toBeGreaterThan(0);
        for (const line of fonts) expect(line.slice(-5, -4)).toEqual(["yes"]);
      }
    });

    it("has two rulers at right angles on every page, each one straight stroke of 100 mm", () => {
      for (const { pages } of read.values())
        for (const page of pages) {
          const long = page.strokes.flatMap((stroke) => {
            const ends = straight(stroke);
            if (ends === null) return [];
            const [[x1, y1], [x2, y2]] = ends;
            return near(Math.hypot(x2 - x1, y2 - y1), 100, 0.5) ? [[x2 - x1, y2 - y1] as const] : [];
          });
          // Cairo writes whole 256ths of a point: 0.0014 mm.
          expect(long.filter(([dx, dy]) => near(dx, 100, 0.003) && dy === 0)).toHaveLength(1);
          expect(long.filter(([dx, dy]) => dx === 0 && near(Math.abs(dy), 100, 0.003))).toHaveLength(1);
          expect(long).toHaveLength(2);
        }
    });

    it("names panel, frame and tile on every tile, and asks to be printed at 100 %", () => {
      for (const [key, { pages }] of read) {
        const [id, frame] = key.split(" ");
        const words = frame === "FACE" ? "FACE: as seen from the room" : "BACK: mirrored";
        const tiles = pages.filter((page) => tileOf(page) !== null);
        expect(tiles.length).toBeGreaterThan(3);
        for (const page of tiles)
          expect(page.text).toMatch(
            new RegExp(`${id} · ${words} · tile \\d-\\d · print at 100 %, no scaling`),
          );
        expect(new Set(tiles.map(({ text }) => /tile (\d-\d)/.exec(text)![1])).size).toBe(tiles.length);
      }
    });

    it("does not print tiles that show nothing but the notch of an outline", () => {
      const names = (key: string) =>
        read.get(key)!.pages.flatMap(({ text }) => /· tile (\d-\d)/.exec(text)?.[1] ?? []);
      // The notch is the upper left of the FACE, 290 mm wide and 210 high; a tile of A4 is 189 mm wide, the upper row reaches 108 mm down.
      expect(names("L FACE")).not.toContain("1-1");
      expect(names("L FACE")).toContain("2-1");
      expect(names("L BACK")).toContain("1-1");
    });

    it("draws grid lines every 200 mm from the reference edge on both sides, labelled in panel mm", () => {
      const { widthMm } = schedule.panels.find(({ id }) => id === "R")!;
      expect(widthMm).toBe(466);
      const text = (key: string) =>
        read
          .get(key)!
          .pages.map((page) => page.text)
          .join("\n");
      for (const label of ["x 200", "x 400", "y 200", "y 400"])
        expect(text("R FACE")).toMatch(new RegExp(`${label}\\b`));
      for (const label of ["x 266 (200 from the reference edge)", "x 66 (400 from the reference edge)"])
        expect(text("R BACK")).toContain(label);
      let found = 0;
      for (const page of read.get("R BACK")!.pages) {
        const tile = tileOf(page);
        if (tile === null) continue;
        const upright = page.strokes.flatMap((stroke) => {
          const ends = straight(stroke);
          return ends &&
            stroke.colour.startsWith("rgb(22") && // the blue of the grid
            ends[0][0] === ends[1][0] &&
            near(stroke.widthMm!, 0.13, 0.001) &&
            Math.abs(ends[0][1] - ends[1][1]) > 100
            ? [tile.corner[0] + ends[0][0] - tile.at[0]]
            : [];
        });
        found += upright.length;
        for (const x of upright) expect([266, 66].some((wanted) => near(wanted, x, 0.01))).toBe(true);
      }
      expect(found).toBeGreaterThan(2);
    });

    it("says on its first page how to use it, what to measure before the first hole, and what may hurt", () => {
      const [first] = read.get("R FACE")!.pages;
      for (const words of [
        /Panel R · FACE/,
        /200 mm/,
        /mask/,
        /eye protection/,
        /never drill overhead/i,
        /fibre, 0\.6 mm bit/,
      ])
        expect(first!.text.replace(/\s+/g, " ")).toMatch(words);
      expect(first!.text).toMatch(/clockwise/);
    });

    it("names walls and neighbours at the edges where they are on the side that lies up", () => {
      const tiles = (key: string) =>
        read
          .get(key)!
          .pages.map(({ text }) => text)
          .join("\n");
      expect(tiles("R FACE")).toContain("right edge · toward the street wall");
      expect(tiles("R BACK")).toContain("left edge · toward the street wall");
      expect(tiles("R FACE")).toContain("left edge = REFERENCE EDGE · toward the shed wall · beside L");
      expect(tiles("R BACK")).toContain("right edge = REFERENCE EDGE · toward the shed wall · beside L");
    });
  },
);

describe.skipIf(!popplerIsThere)("paper (skipped without poppler-utils)", () => {
  it.each([
    // ISO 216; ANSI/ASME Y14.1 sizes A and B, 8.5 x 11 and 11 x 17 in.
    ["A3", 297, 420],
    ["Letter", 8.5 * 25.4, 11 * 25.4],
    ["Tabloid", 11 * 25.4, 17 * 25.4],
  ])("%s has pages of its size", async (size, widthMm, heightMm) => {
    const { pages } = readPdf(await template(porch({ size }), "R", "FACE"));
    for (const page of pages) {
      expect(page.widthMm).toBeCloseTo(widthMm, 2);
      expect(page.heightMm).toBeCloseTo(heightMm, 2);
    }
  });

  it("from a roll is as wide as the roll and as long as the panel asks for", async () => {
    const { pages } = readPdf(await template(porch({ size: { roll: "610mm" } }), "R", "FACE"));
    expect(pages).toHaveLength(2);
    for (const page of pages) expect(page.widthMm).toBeCloseTo(610, 2);
    expect(pages[1]!.heightMm).toBeGreaterThan(600);
  });

  it("that makes 100 mm too long gets a smaller board and the same rulers, and is warned of beyond 0.5 mm", async () => {
    const schedule = porch({ size: "A3", measured100: "100.8mm" });
    expect(schedule.warnings.join()).toContain("paper.measured100: 100 mm come out 0.8 mm too long");
    expect(porch({ measured100: 99.4 }).warnings.join()).toContain("0.6 mm too short");
    expect(porch({ measured100: "100.5mm" }).warnings.join()).not.toContain("measured100");
    const { pages } = readPdf(await template(schedule, "R", "FACE"));
    const holes = schedule.holes.filter(({ panel }) => panel === "R");
    let seen = 0;
    for (const page of pages) {
      const lengths = page.strokes.flatMap((stroke) => {
        const ends = straight(stroke);
        return ends ? [Math.hypot(ends[1][0] - ends[0][0], ends[1][1] - ends[0][1])] : [];
      });
      expect(lengths.filter((length) => near(length, 100, 0.003))).toHaveLength(2);
      const tile = tileOf(page);
      for (const ring of tile === null ? [] : rings(page)) {
        // On paper that stretches by 1.008 it stands where the hole is.
        const { x, y } = middle(ring);
        const onBoard = [
          tile!.corner[0] + (x - tile!.at[0]) * 1.008,
          tile!.corner[1] + (y - tile!.at[1]) * 1.008,
        ];
        expect(
          holes.some(({ xMm, yMm }) => near(xMm, onBoard[0]!, 0.02) && near(yMm, onBoard[1]!, 0.02)),
        ).toBe(true);
        seen++;
      }
    }
    expect(seen).toBeGreaterThanOrEqual(holes.length);
  });
});

describe.skipIf(!popplerIsThere)("a board that is no rectangle (skipped without poppler-utils)", () => {
  const words = (pages: readonly PageRead[]) => pages.map(({ text }) => text.replace(/\s+/g, " "));

  it("is drawn as it was cut: true corners, the warning on the first page, tiles by the reference edge", async () => {
    // By hand: the reference edge is 599 mm long; (757² - 763²) / (4 x 599) = -3.806 mm; sqrt(466² - 3.806²) = 465.984 mm.
    const rise = (757 ** 2 - 763 ** 2) / (4 * 599);
    const schedule = porch(
      {},
      { asCut: { R: { width: 466, length: 599, diagonals: { risingRight: 757, fallingRight: 763 } } } },
    );
    for (const frame of ["FACE", "BACK"] as const) {
      const { pages } = readPdf(await template(schedule, "R", frame));
      const across = 465.984;
      const x = (fromReference: number) => (frame === "FACE" ? fromReference : 466 - fromReference);
      const wanted = [
        [x(0), 0],
        [x(across), rise],
        [x(across), 599 + rise],
        [x(0), 599],
      ] as const;
      // Poppler gives what lies beyond a tile too: any tile's outline has all four corners.
      let tiles = 0;
      for (const page of pages) {
        const tile = tileOf(page);
        if (tile === null) continue;
        tiles++;
        const outlines = page.strokes.filter(
          ({ isClosed, widthMm, points }) =>
            isClosed && widthMm !== null && near(widthMm, 0.35, 0.01) && points.length >= 4,
        );
        const corners = outlines.flatMap(({ points }) =>
          points.map(([px, py]) => [tile.corner[0] + px - tile.at[0], tile.corner[1] + py - tile.at[1]]),
        );
        for (const [wx, wy] of wanted)
          expect([
            frame,
            wx,
            wy,
            corners.some(([cx, cy]) => near(cx!, wx, 0.02) && near(cy!, wy, 0.02)),
          ]).toEqual([frame, wx, wy, true]);
        expect(page.text.replace(/\s+/g, " ")).toContain(
          frame === "FACE"
            ? "from the board's lower-left corner on the FACE"
            : "bounding box on the BACK, which is no board: measure from the reference edge's lower end at x 466.00, y 0.00 mm",
        );
      }
      expect(tiles).toBeGreaterThan(3);
      const first = words(pages)[0]!;
      expect(first).toContain("its diagonals differ by 6 mm");
      expect(first).toContain(`its lower ${frame === "FACE" ? "right" : "left"} corner lies 3.81 mm too low`);
      expect(first).toContain("Lay every tile by the reference edge and its lower end");
      expect(words(pages).join(" ")).not.toContain("by the board's own edges");
    }
  });

  it("names a real corner where its bounding box has none at the lower left", async () => {
    const schedule = porch({});
    // L is notched at the upper left of its FACE: the lower left is board there and on the BACK.
    const tiles = (pages: readonly PageRead[]) =>
      words(pages).filter((text) => text.includes("corner of this tile"));
    for (const frame of ["FACE", "BACK"] as const)
      for (const text of tiles(readPdf(await template(schedule, "L", frame)).pages))
        expect(text).toContain(`from the board's lower-left corner on the ${frame}`);
    const notched = porch(
      {},
      {
        panels: [
          {
            id: "L",
            outline: [
              [300, 10],
              [520, 10],
              [520, 610],
              [10, 610],
              [10, 220],
              [300, 220],
            ],
          },
          { id: "R", x: 523, y: 10, width: 467, length: 600 },
        ],
      },
    );
    // Half a millimetre of fabric all round: by hand, the nearest corner to the box's is (300.5 - 10.5, 0) or (0, 220.5 - 10.5).
    const said = tiles(readPdf(await template(notched, "L", "FACE")).pages);
    expect(said.length).toBeGreaterThan(3);
    for (const text of said)
      expect(text).toContain(
        "from the lower-left corner of the board's bounding box on the FACE, which is no board: measure from the board's corner at x 0.00, y 210.00 mm",
      );
  });
});

describe("a template", () => {
  it("is the same to the byte whenever it is made", async () => {
    const schedule = porch({});
    expect(await template(schedule, "R", "BACK")).toEqual(await template(porch({}), "R", "BACK"));
  });

  it("is made of a panel without holes too: its outline", async () => {
    const schedule = porch({});
    const bytes = await templatePdf("FACE", schedule.panels[0]!, schedule.panels, [], schedule.plan, font);
    expect(Buffer.from(bytes.subarray(0, 8)).toString("latin1")).toBe("%PDF-1.7");
    if (!popplerIsThere) return;
    const { pages } = readPdf(bytes);
    expect(pages[0]!.text).toContain("0 holes");
    expect(pages.flatMap(rings).filter((_, i) => i > 3)).toEqual([]); // those of the legend
  });
});
