import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Dialect } from "../../src/outputs/machine/gcode.ts";
import { machineFiles } from "../../src/outputs/machine/machineFiles.ts";
import { sampleDxf } from "../../src/outputs/machine/sampleDxf.ts";
import { makeSchedule } from "../../src/schedule/makeSchedule.ts";
import { sampleBoard } from "../../src/schedule/sampleBoard.ts";
import { scratch } from "../cli/lacunar.ts";
import { planWith } from "../plan/testPlan.ts";
import { testSky } from "../sky/testSky.ts";
import {
  type FoundHole,
  gerbvHoles,
  hasEzdxf,
  hasGerbv,
  hasRs274,
  PYTHON,
  rs274Holes,
  run,
} from "./debianTools.ts";

/*
 * Readers that nobody here wrote: ezdxf (Debian's python3-ezdxf), LinuxCNC's stand-alone interpreter rs274 (linuxcnc-uspace), gerbv.
 * Bar: every hole within 0.01 mm (DESIGN section 8). Where a tool is missing its tests are skipped; .ci/run installs them.
 */
const folder = scratch();
const SAME_MM = 0.01;

/** The hall of a swimming club, invented: an L and a rectangle, battens behind, a lamp. */
const CLUB = {
  ceiling: { width: 2400, length: 1800 },
  drawnAs: "fromBelow",
  panels: [
    {
      id: "L1",
      outline: [
        [300, 10],
        [1195, 10],
        [1195, 1790],
        [10, 1790],
        [10, 400],
        [300, 400],
      ],
    },
    { id: "R1", x: 1205, y: 10, width: 1185, length: 1780 },
  ],
  fabric: { thickness: 1 },
  frame: { batten: { width: 38, depth: 19 } },
  keepOut: [{ id: "lamp", kind: "luminaire", at: [1700, 700], radius: 60 }],
  fibre: {
    bundles: { count: 4, strands: { "0.5mm": 80, "0.75mm": 14, "1mm": 5, "1.5mm": 1 } },
    sharing: "ceiling",
  },
};

function made(
  name: string,
  panelId: string,
  changes: Record<string, unknown> = {},
  dialect: Dialect = "rs274",
) {
  const schedule = makeSchedule(planWith({ ...CLUB, ...changes }), testSky());
  const panel = schedule.panels.find(({ id }) => id === panelId)!;
  const holes = schedule.holes.filter((hole) => hole.panel === panelId);
  expect(holes.length).toBeGreaterThan(100);
  const files = machineFiles(panel, holes, schedule.plan, dialect);
  const at = join(folder, name, panelId);
  mkdirSync(at, { recursive: true });
  for (const [file, text] of files) writeFileSync(join(at, file), text);
  return { schedule, panel, holes, files, at };
}

/** Each hole has exactly one found thing at its place and of its bit, and nothing is left over. */
function expectSame(wanted: readonly FoundHole[], found: readonly FoundHole[], bitWithinMm: number) {
  const open = [...found];
  for (const hole of wanted) {
    const i = open.findIndex(
      (one) =>
        Math.abs(one.xMm - hole.xMm) <= SAME_MM &&
        Math.abs(one.yMm - hole.yMm) <= SAME_MM &&
        Math.abs(one.bitMm - hole.bitMm) <= bitWithinMm,
    );
    expect(i, `${JSON.stringify(hole)} is not there`).toBeGreaterThanOrEqual(0);
    open.splice(i, 1);
  }
  expect(open).toEqual([]);
}

const READ_DXF = `
import ezdxf, json, sys
d = ezdxf.readfile(sys.argv[1]); a = d.audit(); m = d.modelspace()
print(json.dumps({
  "errors": [str(e.message) for e in a.errors], "fixes": [str(e.message) for e in a.fixes],
  "units": d.header["$INSUNITS"],
  "circles": [{"xMm": c.dxf.center.x, "yMm": c.dxf.center.y, "bitMm": 2 * c.dxf.radius, "layer": c.dxf.layer} for c in m.query("CIRCLE ARC ELLIPSE")],
  "board": [list(p[:2]) for e in m.query('LWPOLYLINE[layer=="BOARD"]') for p in e.get_points()],
  "battens": len(m.query('LWPOLYLINE[layer=="BATTENS"]')), "screws": [[p.dxf.location.x, p.dxf.location.y] for p in m.query('POINT[layer=="SCREWS"]')],
  "words": [t.dxf.text for t in m.query('TEXT[layer=="TEXT"]')],
  "layers": sorted({e.dxf.layer for e in m}), "declared": sorted(l.dxf.name for l in d.layers)}))
`;
const readDxf = (path: string) => JSON.parse(run(PYTHON, ["-c", READ_DXF, path]));

describe.skipIf(!hasEzdxf)("ezdxf (python3-ezdxf)", () => {
  it("finds one circle a hole, a clean file in mm, and each thing on a layer of its own", () => {
    const { panel, holes, at } = made("dxf", "L1");
    const drawing = readDxf(join(at, "panel.dxf"));
    expect(drawing.errors).toEqual([]);
    expect(drawing.fixes).toEqual([]);
    expect(drawing.units).toBe(4);
    expectSame(holes, drawing.circles, 1e-6);
    for (const { layer, bitMm } of drawing.circles) expect(layer).toBe(`HOLES_${bitMm.toFixed(2)}MM`);
    expect(drawing.board).toEqual(panel.outlineMm);
    expect(drawing.battens).toBe(panel.battensMm.length);
    expect(drawing.screws).toEqual(panel.screwsMm);
    for (const layer of drawing.layers) expect(drawing.declared).toContain(layer);
    expect(drawing.words[0]).toContain("FACE: as seen from the room");
    // The L has no board at the lower left of its box: the real corner next to it, less the fabric, is at 290, 0.
    expect(drawing.words[1]).toMatch(/no board: set X290\.\d\d Y0\.00/);
  });

  it("finds the sample board as its data says", () => {
    const { schedule, at } = made("sample", "R1");
    const path = join(at, "sample.dxf");
    writeFileSync(path, sampleDxf(schedule.plan));
    const drawing = readDxf(path);
    expect([...drawing.errors, ...drawing.fixes]).toEqual([]);
    const sample = sampleBoard(schedule.plan);
    expectSame(sample.holes, drawing.circles, 1e-6);
    expect(new Set(sample.holes.map(({ bitMm }) => bitMm))).toEqual(new Set([0.6, 0.85, 1.1, 1.65]));
  });
});

describe.skipIf(!hasGerbv)("gerbv", () => {
  it.each(["L1", "R1"])("finds every hole of drill.xnc of %s", (id) => {
    const { holes, at } = made("xnc", id);
    run("gerbv", ["-x", "rs274x", "-o", join(at, "out.gbr"), join(at, "drill.xnc")]);
    // gerbv writes apertures to 0.0001 inch.
    expectSame(holes, gerbvHoles(run("cat", [join(at, "out.gbr")])), 0.0013);
  });
});

/** Bits of the fibres first, then the pilot's, as tools 1 to 5; 6 scribes. */
const BITS = [0.6, 0.85, 1.1, 1.65, 0.8];
const TOOL_TABLE = [...BITS, 3].map((bit, i) => `T${i + 1} P${i + 1} D${bit}\n`).join("");
const rs274 = (path: string) => {
  const table = join(folder, "tools.tbl");
  writeFileSync(table, TOOL_TABLE);
  return run("rs274", ["-t", table, "-g", path]);
};
const interpreted = (path: string, bitMm?: number) => {
  const { holes, lowMoves } = rs274Holes(rs274(path), 15);
  expect(lowMoves).toEqual([]);
  for (const hole of holes) expect(hole.spindle).toBe(true);
  return holes.map((hole) => ({ ...hole, bitMm: bitMm ?? BITS[hole.tool - 1]! }));
};

describe.skipIf(!hasRs274)("LinuxCNC's rs274 (linuxcnc-uspace)", () => {
  it("drills every hole through the board and 0.3 bits and half a millimetre on", () => {
    const { holes, at } = made("nc", "R1");
    const found = interpreted(join(at, "drill.nc"));
    expectSame(holes, found, 0);
    for (const { depthMm, bitMm } of found) expect(depthMm).toBeCloseTo(6 + 0.3 * bitMm + 0.5, 3);
    // One change a bit, thinnest first.
    expect(found.map(({ tool }) => tool)).toEqual(found.map(({ tool }) => tool).sort());
    const pilot = interpreted(join(at, "drill-pilot.nc"));
    expectSame(
      holes.map((hole) => ({ ...hole, bitMm: Math.min(hole.bitMm, 0.8) })),
      pilot,
      0,
    );
  });

  it("drills the mirror image where the plan asks for the BACK, with the pilot pass on the FACE all the same", () => {
    const { panel, holes, at } = made("back", "L1", { cnc: { frame: "BACK" } });
    const mirrored = holes.map((hole) => ({ ...hole, xMm: panel.widthMm - hole.xMm }));
    expectSame(mirrored, interpreted(join(at, "drill.nc")), 0);
    expectSame(
      holes.map((hole) => ({ ...hole, bitMm: Math.min(hole.bitMm, 0.8) })),
      interpreted(join(at, "drill-pilot.nc")),
      0,
    );
  });

  it("dimples 1 mm deep as spots, in one stroke each", () => {
    const { holes, files, at } = made("spot", "R1", { cnc: { mode: "spot" } });
    const found = interpreted(join(at, "drill.nc"));
    expectSame(holes, found, 0);
    for (const { depthMm } of found) expect(depthMm).toBeCloseTo(1, 6);
    expect(files.get("drill.nc")!.replace(/\(.*\)/g, "")).not.toContain("G83");
    expect([...files.keys()]).not.toContain("drill-pilot.nc");
  });

  it("makes the same holes of plain moves, a file a bit", () => {
    const { holes, files, at } = made("plain", "R1", {}, "plain");
    const plain = [...files.keys()].filter((name) => /^drill-\d\.\d\dmm\.nc$/.test(name));
    expect(plain).toEqual(["drill-0.60mm.nc", "drill-0.85mm.nc", "drill-1.10mm.nc", "drill-1.65mm.nc"]);
    const found = plain.flatMap((name) => interpreted(join(at, name), Number(name.slice(6, 10))));
    expectSame(holes, found, 0);
    for (const { depthMm, bitMm } of found) expect(depthMm).toBeCloseTo(6 + 0.3 * bitMm + 0.5, 3);
    for (const name of plain) expect(files.get(name)!.replace(/\(.*\)/g, "")).not.toMatch(/G8[13]|M6|T\d|%/);
  });

  it("splits a panel over a small bed so that every hole is drilled once, in reach, on datums drilled before", () => {
    const bed = [700, 800] as const;
    const { panel, holes, files, at } = made("bed", "R1", { cnc: { bed } });
    const names = [...files.keys()].filter((name) => /^drill-\d+\.nc$/.test(name));
    expect(names.length).toBeGreaterThan(3);
    const bySetUp = names.map((name) => interpreted(join(at, name)));
    const dowels = bySetUp
      .flat()
      .filter((one) => !holes.some((hole) => Math.hypot(hole.xMm - one.xMm, hole.yMm - one.yMm) < SAME_MM));
    expectSame(
      holes,
      bySetUp.flat().filter((one) => !dowels.includes(one)),
      0,
    );
    const extent = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
    for (const [i, found] of bySetUp.entries()) {
      const pins = i === 0 ? [] : interpreted(join(at, `pins-${i + 1}.nc`));
      expect(pins.length).toBe(i === 0 ? 0 : 2);
      const all = [...found, ...pins];
      expect(extent(all.map(({ xMm }) => xMm))).toBeLessThanOrEqual(bed[0]);
      expect(extent(all.map(({ yMm }) => yMm))).toBeLessThanOrEqual(bed[1]);
      // A pin goes where an earlier set-up made a hole of its size, off every batten.
      for (const pin of pins) {
        expectSame(
          [pin],
          bySetUp
            .slice(0, i)
            .flat()
            .filter((one) => Math.hypot(one.xMm - pin.xMm, one.yMm - pin.yMm) < SAME_MM),
          0,
        );
        expect(pin.bitMm).toBeGreaterThanOrEqual(0.8);
        expect(pin.xMm > 0 && pin.xMm < panel.widthMm && pin.yMm > 0 && pin.yMm < panel.lengthMm).toBe(true);
      }
      if (i > 0)
        expect(Math.hypot(pins[0]!.xMm - pins[1]!.xMm, pins[0]!.yMm - pins[1]!.yMm)).toBeGreaterThan(79);
    }
  });

  it("scribes the battens' lines on the back", () => {
    const { panel, at } = made("scribe", "R1", { cnc: { scribeBattens: true } });
    const feeds = [
      ...rs274(join(at, "scribe.nc")).matchAll(/STRAIGHT_FEED\((-?[\d.]+), (-?[\d.]+), (-?[\d.]+)/g),
    ];
    const ends = new Set(feeds.map(([, x, y]) => `${Number(x).toFixed(2)} ${Number(y).toFixed(2)}`));
    for (const ring of panel.battensMm)
      for (const [x, y] of ring) expect(ends).toContain(`${(panel.widthMm - x).toFixed(2)} ${y.toFixed(2)}`);
    for (const [, , , z] of feeds) expect(Number(z)).toBeCloseTo(-0.3, 6);
  });
});
