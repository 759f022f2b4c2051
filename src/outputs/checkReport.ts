import type { StrandOrder } from "../fibre/order.ts";
import { placeWords } from "../plan/placeWords.ts";
import { bearingOrigin } from "../schedule/bearing.ts";
import { type BuildReport, buildReport } from "../schedule/buildReport.ts";
import { type PassCount, passCounts } from "../schedule/passes.ts";
import type { BearingRecord, ExtinctionRecord, Schedule } from "../schedule/types.ts";
import { buildRows } from "./buildRows.ts";
import { truthRows } from "./truthReport.ts";

const count = (n: number, one: string, many = `${one}s`) =>
  `${n.toLocaleString("en-US")} ${n === 1 ? one : many}`;

const direction = (deg: number) =>
  `${Math.abs(deg).toFixed(1)} degrees ${deg >= 0 ? "above" : "below"} the horizon`;

/** The plain words of `lacunar check`: label in the first column, what it says in the second. */
export function checkReport(
  schedule: Schedule,
  order: { faintestMag: number; order: StrandOrder } | null,
  built: BuildReport = buildReport(schedule),
): string {
  const { plan, fidelity, panels, left } = schedule;
  const rows: [string, string][] = [];
  const place = placeWords(plan.place);
  if (plan.title !== "") rows.push(["Title", plan.title]);
  rows.push([
    "Moment",
    `${schedule.civil.replace("T", " ")} at ${place} (${schedule.instantUtc}); the Sun ${direction(fidelity.sunAltDeg)}`,
  ]);
  if (fidelity.bearing !== null) rows.push(...bearingRows(schedule, fidelity.bearing));
  const { belowHorizon, offCeiling, beyondProjection } = fidelity.notShown;
  rows.push([
    "Field",
    `${count(fidelity.objectsInField, "object")} over the ceiling; not shown: ${belowHorizon.toLocaleString("en-US")} below the horizon, ${offCeiling.toLocaleString("en-US")} off the ceiling${beyondProjection > 0 ? `, ${beyondProjection.toLocaleString("en-US")} beyond what the view can show` : ""}`,
  ]);
  rows.push([
    "Holes",
    `${count(fidelity.holes, "hole")} on ${count(panels.length, "panel")}: ${panels.map((panel) => `${panel.id} ${panel.holeCount}`).join(", ")}`,
  ]);
  if (fidelity.milkyWay > 0)
    rows.push([
      "Milky Way",
      `${count(fidelity.milkyWay, "dot")} along it, ${plan.fibre.milkyWay} of the thinnest strands: not graded, no stars of their own`,
    ]);
  if (fidelity.moonRing > 0 && typeof plan.show.moon === "object")
    rows.push([
      "Moon",
      `${count(fidelity.moonRing, "hole")} of ${plan.show.moon.fibre} mm fibre along its lit part, ${plan.show.moon.ring} mm across: not graded`,
    ]);
  rows.push(...boards(schedule).map((line, i): [string, string] => [i === 0 ? "Boards" : "", line]));
  for (const [i, size] of fidelity.strands.entries()) {
    rows.push([
      i === 0 ? "Fibre" : "",
      `${size.diameterMm} mm fibre, ${size.bitMm} mm bit: ${size.used} used of ${size.owned}${size.heldBack > 0 ? `, ${size.heldBack} held back` : ""}${size.dark > 0 ? `, ${size.dark} dark` : ""}`,
    ]);
  }
  rows.push(...passRows(schedule));
  rows.push([
    "Reaches",
    fidelity.limitingMag === null ? "nothing" : `magnitude ${fidelity.limitingMag.toFixed(2)}`,
  ]);
  if (fidelity.extinction !== null) rows.push(["Extinction", extinction(fidelity.extinction)]);
  rows.push([
    "Merged",
    `${count(fidelity.merged, "object")} closer than ${plan.holes.merge} mm to a brighter one share its hole`,
  ]);
  rows.push([
    "Shifts",
    fidelity.moved === 0
      ? "no hole is moved"
      : `${count(fidelity.moved, "hole")} moved off gaps and margins, ${fidelity.shiftMaxMm.toFixed(1)} mm at most; RMS over all ${fidelity.shiftRmsMm.toFixed(2)} mm`,
  ]);
  rows.push([
    "Light",
    `the fibres span ${fidelity.fibreSpanMag.toFixed(2)} magnitudes, the objects shown ${fidelity.skySpanMag.toFixed(2)}: after the best common offset they are off by ${fidelity.photometricRmsMag.toFixed(2)} magnitudes RMS`,
  ]);
  rows.push(["Missing", missing(schedule)]);
  rows.push([
    "Left out",
    `${count(left.length, "object")} of the field without light of their own (all of them, with why: lacunar holes --json)`,
  ]);
  rows.push(...truthRows(schedule));
  if (order) {
    const { bundles, objects, strands } = order.order;
    rows.push([
      `To ${order.faintestMag.toFixed(1)}`,
      `${count(objects, "object")} ask for ${count(bundles, "bundle")} of this kind`,
    ]);
    for (const size of strands) {
      rows.push([
        "",
        `${size.diameterMm} mm fibre: ${size.needed} needed, ${size.bought} bought${size.heldBack > 0 ? `, ${size.heldBack} held back` : ""}${size.setAside > 0 ? `, ${size.setAside} set aside` : ""}, ${size.spare} spare`,
      ]);
    }
  }
  rows.push(...buildRows(schedule, built));
  const width = Math.max(...rows.map(([label]) => label.length)) + 2;
  return `${rows.map(([label, text]) => `${label.padEnd(width)}${text}`).join("\n")}\n`;
}

function bearingRows({ plan }: Schedule, bearing: BearingRecord): [string, string][] {
  const origin = bearingOrigin(plan.view.topBearingFrom);
  return [
    [
      "Bearing",
      `the top edge lies toward ${bearing.topBearingDeg.toFixed(1)} degrees, TRUE${origin === null ? "" : ` (${origin})`}`,
    ],
    [
      "",
      `5 degrees of error would move stars by ${bearing.fiveDegreesMm.toFixed(0)} mm at the farthest corner; check it by the Sun: lacunar nights PLAN --wall right`,
    ],
  ];
}

function extinction({ magPerAirMass, lost, gained, lowest, limitingMagWithout }: ExtinctionRecord): string {
  const changed =
    lost + gained === 0
      ? "the same objects have light as without"
      : `${count(lost, "object")} lost ${lost === 1 ? "its" : "their"} light, ${count(gained, "other")} gained it`;
  return [
    `${magPerAirMass} magnitudes per air mass: ${changed}`,
    ...(lowest === null
      ? []
      : [
          `the lowest hole, at ${lowest.altDeg.toFixed(1)} degrees, is dimmed by ${lowest.dimmedMag.toFixed(2)} magnitudes`,
        ]),
    ...(limitingMagWithout === null
      ? []
      : [`the limit, dimmed like all magnitudes here, would be ${limitingMagWithout.toFixed(2)} without`]),
  ].join("; ");
}

/** What to cut, sizes alike on one line. */
function boards({ panels }: Schedule): string[] {
  const bySize = new Map<string, string[]>();
  for (const { id, widthMm, lengthMm } of panels) {
    const size = `${widthMm} x ${lengthMm} mm`;
    bySize.set(size, [...(bySize.get(size) ?? []), id]);
  }
  return [...bySize].map(([size, ids]) => `${ids.length} of ${size}: ${ids.join(", ")}`);
}

const MOST_NAMED = 8;

function missing({ fidelity }: Schedule): string {
  const all = fidelity.missing;
  if (all.length === 0)
    return `nothing brighter than magnitude ${fidelity.limitingMag?.toFixed(2) ?? "that"}`;
  const named = all
    .slice(0, MOST_NAMED)
    .map((one) => `${one.name || `HIP ${one.hip}`} (${one.mag.toFixed(2)}: ${one.why})`);
  return `${count(all.length, "brighter object")}: ${named.join("; ")}${all.length > MOST_NAMED ? "; and so on" : ""}`;
}

/** Counts of both passes of drilling. */
function passRows({ holes, plan }: Schedule): [string, string][] {
  if (holes.length === 0) return [];
  const { pilot, opening } = passCounts(holes, plan);
  const told = (counts: readonly PassCount[]) =>
    counts.map(({ bitMm, holes: its }) => `${its} of ${bitMm} mm`).join(", ");
  return [
    ["Drilling", `pass 1, pilot on the bare face: ${told(pilot)}`],
    ["", `pass 2, opening from the back (${plan.work.opening}): ${told(opening)}`],
  ];
}
