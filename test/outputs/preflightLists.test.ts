import { expect, it } from "vitest";
import { holesCsv } from "../../src/outputs/holesCsv.ts";
import { panelSvg } from "../../src/outputs/panelSvg.ts";
import { preflightLists } from "../../src/outputs/preflightLists.ts";
import { makeSchedule } from "../../src/schedule/makeSchedule.ts";
import { planWith } from "../plan/testPlan.ts";
import { shippedFont } from "../render/scenes.ts";
import { testSky } from "../sky/testSky.ts";

it("lists and drawings are read back before they are written: a hole lost, moved, doubled or of another bit is found", () => {
  const schedule = makeSchedule(planWith({ view: { kind: "chart", span: 120 } }), testSky());
  const panel = schedule.panels[0]!;
  const holes = schedule.holes.filter((hole) => hole.panel === panel.id);
  const diameters = [...new Set(holes.map((hole) => hole.diameterMm))];
  const files = new Map([
    ["holes-face.csv", holesCsv("face", panel, holes)],
    ["holes-back.csv", holesCsv("back", panel, holes)],
    ["face.svg", panelSvg("FACE", panel, holes, diameters, shippedFont()).svg],
    ["back.svg", panelSvg("BACK", panel, holes, diameters, shippedFont()).svg],
  ]);
  expect(holes.length).toBeGreaterThan(10);
  expect(preflightLists(panel, holes, files)).toEqual([]);
  const with_ = (name: string, change: (text: string) => string) =>
    preflightLists(panel, holes, new Map([...files, [name, change(files.get(name)!)]])).join();
  const lines = (text: string) => text.split("\r\n");
  expect(with_("holes-face.csv", (text) => [lines(text)[0], ...lines(text).slice(2)].join("\r\n"))).toContain(
    `${holes[0]!.hole} is missing`,
  );
  expect(
    with_("holes-back.csv", (text) => [lines(text)[0], lines(text)[1], ...lines(text).slice(1)].join("\r\n")),
  ).toContain(`${holes[0]!.hole} is there 2 times`);
  expect(
    with_("face.svg", (text) => text.replace(/cx="([\d.]+)"/, (_, x) => `cx="${Number(x) + 0.02}"`)),
  ).toContain("face.svg");
  expect(with_("back.svg", (text) => text.replace(/ r="[\d.]+"/, ' r="0.4"'))).toContain("back.svg");
  // A drawing of the other side is none of this one.
  expect(
    preflightLists(panel, holes, new Map([...files, ["back.svg", files.get("face.svg")!]])).length,
  ).toBeGreaterThan(5);
});
