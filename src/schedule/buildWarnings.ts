import { lacksEdgeBattens } from "../panel/battenFaults.ts";
import { lostFixings, SCREW_CORNER_MM, SCREW_EDGE_MM, weakScrews } from "../panel/buildFaults.ts";
import { widestSag } from "../panel/frameFigures.ts";
import { HANGER_OFF_SCREW_MM } from "../panel/hangers.ts";
import { keepOutPastWalls } from "../panel/keepOutFaults.ts";
import { type KeepOut, keepOutsOf } from "../panel/keepOuts.ts";
import { panelNames } from "../panel/panelNames.ts";
import { roomRing } from "../panel/walls.ts";
import type { WorkPanel } from "../panel/work.ts";
import { upToTenths as mm, pointText as point } from "../plan/mmWords.ts";
import type { KeepOutKind, Plan } from "../plan/plan.ts";
import { fitRoom } from "../plan/roomFit.ts";

/**
 * What a builder should hear of the room, its keep-outs and the frames before cutting.
 * @param plan positions in the ceiling frame
 */
export const buildWarnings = (plan: Plan, panels: readonly WorkPanel[]): string[] => [
  ...roomWarning(plan),
  ...keepOutWarnings(plan),
  ...cautions(plan),
  ...edgeBattenWarnings(plan, panels),
  ...fixingWarnings(plan, panels),
  ...screwWarning(panels),
  ...unscrewedWarnings(panels),
  ...hangerWarnings(panels),
  ...cavityWarning(plan),
  ...sagWarning(plan, panels),
];

/** Of its span: a bow that everybody sees. Common practice, no source. */
const PLAIN_SAG = 1 / 100;

function sagWarning(plan: Plan, panels: readonly WorkPanel[]): string[] {
  const sag = plan.frame === "none" ? null : widestSag(plan, plan.frame, panels);
  if (sag === null || sag.sagMm <= PLAIN_SAG * sag.spanMm) return [];
  return [
    `the board would sag ${mm(sag.sagMm)} mm between battens ${mm(sag.spanMm)} mm apart: add cross battens (frame.crossBattens) or take a thicker board`,
  ];
}

/** The best fit leaves a wrong diagonal about a quarter of its error, a wrong side an eighth (in a square room). */
const NOTABLE_MISFIT_MM = 3;

function roomWarning({ ceiling }: Plan): string[] {
  if (ceiling.sides === undefined) return [];
  const fit = fitRoom(ceiling);
  if (typeof fit === "string") return [];
  const off = Math.abs(fit.worst.measuredMm - fit.worst.fittedMm);
  if (off <= NOTABLE_MISFIT_MM) return [];
  return [
    `the measures of the room disagree by up to ${mm(off)} mm (${fit.worst.measure}) after the best fit: measure sides and diagonals again before cutting`,
  ];
}

function keepOutWarnings(plan: Plan): string[] {
  const room = roomRing(plan);
  return keepOutsOf(plan.keepOut).flatMap((keepOut) => {
    const past = keepOutPastWalls(keepOut, room);
    const behind =
      plan.cavity !== undefined && keepOut.behindMm > plan.cavity
        ? `keep-out ${keepOut.id} (${keepOut.kind}) asks for ${mm(keepOut.behindMm)} mm clear behind the face, and the cavity is ${mm(plan.cavity)} mm`
        : null;
    return [
      ...reachWarning(plan, keepOut),
      ...(past === null
        ? []
        : [`keep-out ${keepOut.id} (${keepOut.kind}) reaches past the walls: ${past}; check its position`]),
      ...(behind === null ? [] : [behind]),
    ];
  });
}

/** `upTo` that says nothing: no star under the keep-out is moved, or none so far. */
function reachWarning({ holes }: Plan, { id, kind, stars, upToMm }: KeepOut): string[] {
  if (upToMm === null) return [];
  const upTo = `keep-out ${id} (${kind}): upTo of ${mm(upToMm)} mm`;
  if (stars === "drop")
    return [`${upTo} has no effect, since stars: drop leaves them out; keep one of the two`];
  return upToMm <= holes.maxShift
    ? []
    : [
        `${upTo} is more than holes.maxShift of ${mm(holes.maxShift)} mm, past which no star is moved; raise that, or make upTo smaller`,
      ];
}

/**
 * Sources: guidance to NFPA 13 and NFPA 25 (18 in below the deflector); England, Approved Document B 1.14 (300 mm); the rest is
 * common practice.
 */
const CAUTIONS: Partial<Record<KeepOutKind, string>> = {
  grille: "leave it open and its air free to move; it also moves fabric and dust",
  detector:
    "a smoke or heat alarm stays clear and uncovered, at least 300 mm from walls and light fittings and away from air outlets; a new ceiling below it hides it",
  sprinkler:
    "nothing may cover or crowd it, nor fill the 457 mm (18 in) below its deflector; ask before you lower a ceiling near one",
};

function cautions(plan: Plan): string[] {
  return Object.entries(CAUTIONS).flatMap(([kind, caution]) => {
    const ids = plan.keepOut.filter((one) => one.kind === kind).map(({ id }) => id);
    return ids.length === 0
      ? []
      : [`${kind} ${ids.join(", ")}: ${caution}. Local codes and licensed trades decide`];
  });
}

function edgeBattenWarnings({ frame }: Plan, panels: readonly WorkPanel[]): string[] {
  if (frame === "none") return [];
  const unhung = panels.filter(
    (panel) => frame.hangers > 0 && !lacksEdgeBattens(panel) && panel.frame!.hangers.length === 0,
  );
  if (unhung.length === 0) return [];
  return [
    `${panelNames(unhung.map(({ id }) => id))}: within the inset of ${mm(frame.inset)} mm the board is narrower than a batten of ${mm(frame.batten.width)} mm: no hanging points; take a smaller inset, narrower battens or larger panels`,
  ];
}

const unscrewedWarnings = (panels: readonly WorkPanel[]): string[] =>
  panels.flatMap(({ id, frame }) => {
    const bare = frame?.unscrewed ?? [];
    if (bare.length === 0) return [];
    return [
      `panel ${id}: ${bare.length === 1 ? "a piece of batten" : `${bare.length} pieces of batten`} about ${bare.slice(0, 3).map(point).join(", ")}${bare.length > 3 ? " and so on" : ""} of its face ${bare.length === 1 ? "is" : "are"} too short or too narrow for a screw: glue alone would hold ${bare.length === 1 ? "it" : "them"}; move that batten, or leave it out`,
    ];
  });

function hangerWarnings(panels: readonly WorkPanel[]): string[] {
  const crowded = panels.filter(({ frame }) => (frame?.crowdedHangers ?? 0) > 0);
  if (crowded.length === 0) return [];
  const count = crowded.reduce((sum, { frame }) => sum + frame!.crowdedHangers, 0);
  return [
    `${panelNames(crowded.map(({ id }) => id))}: ${count === 1 ? "a hanging point finds" : `${count} hanging points find`} no place ${HANGER_OFF_SCREW_MM} mm from every screw and from the next; take fewer (frame.hangers), or a larger frame.screws.pitch`,
  ];
}

const fixingWarnings = ({ keepOut }: Plan, panels: readonly WorkPanel[]): string[] =>
  lostFixings(panels).map(({ panel, keepOut: id, screws, hangers }) => {
    const kind = keepOut.find((one) => one.id === id)!.kind;
    const count = (n: number, one: string) => (n === 0 ? [] : [n === 1 ? `a ${one}` : `${n} ${one}s`]);
    const lost = [...count(screws, "screw"), ...count(hangers, "hanging point")].join(" and ");
    return `panel ${panel}: ${lost} would sit in the ${kind} ${id}: find another place for ${screws + hangers === 1 ? "it" : "them"}`;
  });

function screwWarning(panels: readonly WorkPanel[]): string[] {
  const weak = weakScrews(panels);
  const sum = (key: "nearEdge" | "nearCorner") => weak.reduce((all, one) => all + one[key], 0);
  const least = (key: "leastEdgeMm" | "leastCornerMm") => mm(Math.min(...weak.map((one) => one[key])));
  const [edge, corner] = [sum("nearEdge"), sum("nearCorner")];
  if (edge + corner === 0) return [];
  const near = [
    ...(edge > 0
      ? [`${edge} nearer than ${SCREW_EDGE_MM} mm to the board's edge (${least("leastEdgeMm")} mm)`]
      : []),
    ...(corner > 0
      ? [`${corner} nearer than ${SCREW_CORNER_MM} mm to a corner (${least("leastCornerMm")} mm)`]
      : []),
  ];
  return [
    `screws on ${weak.length === 1 ? `panel ${weak[0]!.panel}` : `${weak.length} panels`}: ${near.join(", ")}: MDF may split there (mdf-info.eu); take wider battens, lay them flat, or raise frame.inset${edge > 0 ? ` by ${mm(SCREW_EDGE_MM - Math.min(...weak.map(({ leastEdgeMm }) => leastEdgeMm)))} mm` : ""}`,
  ];
}

function cavityWarning({ frame, cavity }: Plan): string[] {
  if (frame === "none" || cavity === undefined || frame.batten.depth !== cavity) return [];
  return [
    `battens ${mm(frame.batten.depth)} mm deep leave nothing of a cavity of ${mm(cavity)} mm: no fibre gets past them`,
  ];
}
