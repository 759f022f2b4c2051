import { called } from "../schedule/fidelityShifts.ts";
import type { ConstellationRecord, GroupRecord, SlideRecord } from "../schedule/fidelityTypes.ts";
import type { Schedule } from "../schedule/types.ts";

/** Shapes told of, the worst first; all of them are in the JSON. */
const MOST_SHAPES = 6;

/** The part of `check` that says how true the ceiling is: rows as `checkReport` has them. */
export function truthRows({ fidelity, plan }: Schedule): [string, string][] {
  const { worst, shiftRmsDeg, constellations, groups, parity, slide, verdict } = fidelity;
  const block = (label: string, lines: readonly string[]) =>
    lines.map((line, i): [string, string] => [i === 0 ? label : "", line]);
  return [
    ...(slide === null ? [] : block("Slide", slideWords(slide, plan.placement))),
    ...block("Worst", [
      ...(shiftRmsDeg === null ? [] : [`RMS over all ${shiftRmsDeg.toFixed(2)} degrees of sky`]),
      ...worst.map(
        (one) =>
          `${called(one)} (${one.mag.toFixed(2)}) at ${one.hole}: ${one.shiftMm.toFixed(1)} mm${one.shiftDeg === null ? "" : `, ${one.shiftDeg.toFixed(2)} degrees`}`,
      ),
    ]),
    ...block("Shapes", shapes(constellations)),
    ...block("Groups", groups.map(groupWords)),
    [
      "Parity",
      parity === null
        ? "too few holes to tell"
        : parity.asSeenFromBelow
          ? "as in the sky: seen from below, the holes lie round each other as the stars do (found from the finished holes)"
          : "MIRRORED: seen from below, the holes lie round each other the wrong way",
    ],
    ["Verdict", verdict],
  ];
}

function slideWords(
  { xMm, yMm, turnDeg, bright, faintestMag, rmsBeforeMm, rmsAfterMm, movedBefore, movedAfter }: SlideRecord,
  limits: Schedule["plan"]["placement"],
): string[] {
  if (xMm === 0 && yMm === 0 && turnDeg === 0)
    return [
      `none: within ${limits.shift} mm and ${limits.turn} degrees nothing serves the ${bright} brightest better`,
    ];
  const turned =
    turnDeg === 0
      ? ""
      : `, turned ${Math.abs(turnDeg)} ${Math.abs(turnDeg) === 1 ? "degree" : "degrees"} ${turnDeg > 0 ? "counter-clockwise" : "clockwise"} seen from below`;
  const toward = [
    ...(xMm === 0 ? [] : [`${Math.abs(xMm)} mm to the ${xMm > 0 ? "right" : "left"}`]),
    ...(yMm === 0 ? [] : [`${Math.abs(yMm)} mm toward the ${yMm > 0 ? "top" : "bottom"} edge`]),
  ];
  return [
    `the whole sky ${toward.length === 0 ? "" : `is slid ${toward.join(" and ")}`}${toward.length === 0 ? turned.replace(", ", "is ") : turned}`,
    `the ${bright} brightest${faintestMag === null ? "" : ` (to magnitude ${faintestMag.toFixed(2)})`}: ${movedBefore} had to be moved, now ${movedAfter}; RMS weighted by light ${rmsBeforeMm.toFixed(2)} mm before, ${rmsAfterMm.toFixed(2)} after`,
  ];
}

function shapes(all: readonly ConstellationRecord[]): string[] {
  if (all.length === 0) return ["no constellation has four stars with light"];
  const told = all
    .slice(0, MOST_SHAPES)
    .filter(({ shapeRmsMm }) => shapeRmsMm > 0)
    .map(
      ({ name, shapeRmsMm, sizeMm, stars }) =>
        `${name} ${shapeRmsMm.toFixed(1)} mm RMS of ${sizeMm.toFixed(0)} mm (${stars} stars)`,
    );
  const head = `${all.length} ${all.length === 1 ? "constellation" : "constellations"} of four stars or more, after the best move, turn and scale`;
  return told.length === 0
    ? [`${head}: all keep their shape`]
    : [`${head}; the worst against their size:`, ...told];
}

function groupWords({ name, overCeiling, lit, holes, separation, shapeRmsMm, panels }: GroupRecord): string {
  const parts = [
    `${lit} of ${overCeiling} lit${holes < lit ? ` in ${holes === 1 ? "one hole" : `${holes} holes`}` : ""}`,
  ];
  if (separation !== null) {
    const { rmsMm, worst } = separation;
    parts.push(
      rmsMm < 0.005
        ? "separations true"
        : `separations off by ${rmsMm.toFixed(1)} mm RMS, most ${worst.between.join(" to ")}: ${worst.drilledMm.toFixed(1)} mm for ${worst.trueMm.toFixed(1)}`,
    );
  }
  if (shapeRmsMm !== null && shapeRmsMm >= 0.005) parts.push(`shape ${shapeRmsMm.toFixed(1)} mm RMS`);
  parts.push(panels.length > 1 ? `SPLIT by a seam: ${panels.join(", ")}` : `on panel ${panels[0]}`);
  return `${name}: ${parts.join("; ")}`;
}
