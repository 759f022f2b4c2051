import { pointText as at, upToTenths as mm } from "../plan/mmWords.ts";
import type { Plan } from "../plan/plan.ts";
import { commonAreaMm2, drawnIn, mitredOut, without } from "./clip.ts";
import type { Batten } from "./frame.ts";
import type { KeepOut } from "./keepOuts.ts";
import { type BoxMm, boxOf, distanceToRing, type Ring, ringHolds, signedAreaMm2 } from "./rings.ts";
import type { WorkPanel } from "./work.ts";

/** Narrower parts of a board break on the way up. */
const LEAST_WEB_MM = 60;
/** What clipping leaves of a side that another one touches. */
const TOUCHING_MM = 0.1;
const TOUCHING_MM2 = 1;

/** What can be built and may still be a slip: one sentence each, naming the panel. */
export const panelWarnings = (panels: readonly WorkPanel[], plan: Plan): string[] =>
  panels.flatMap((panel) => [...slim(panel), ...pastOutline(panel, plan), ...onKeepOuts(panel)]);

function slim({ id, board, exactRing, isRectangle }: WorkPanel): string[] {
  const narrow = Math.min(board.widthMm, board.lengthMm);
  if (isRectangle) {
    return narrow >= LEAST_WEB_MM
      ? []
      : [
          `panel ${id}: its board is a strip of ${mm(narrow)} mm; under ${LEAST_WEB_MM} mm boards break: make it wider, or part of the panel beside it`,
        ];
  }
  const slimParts = partsUnder(exactRing, LEAST_WEB_MM);
  if (slimParts.length === 0) return [];
  let [low, high] = [0, LEAST_WEB_MM];
  while (high - low > 0.5) {
    const middle = (low + high) / 2;
    if (partsUnder(exactRing, middle).length > 0) high = middle;
    else low = middle;
  }
  const [narrowest] = partsUnder(exactRing, high);
  const { xMm, yMm, widthMm, lengthMm } = boxOf(narrowest!);
  return [
    `panel ${id}: the board is only about ${Math.round(high)} mm wide about ${at([xMm + widthMm / 2, yMm + lengthMm / 2])} of its face${slimParts.length > 1 ? `, and slim in ${slimParts.length - 1} more` : ""}; webs under ${LEAST_WEB_MM} mm break: cut less away there, or split the panel`,
  ];
}

/** Parts of an outline that a disc of so much across does not reach, corners left aside. */
export function partsUnder(ring: Ring, acrossMm: number): Ring[] {
  const wide = drawnIn(ring, acrossMm / 2).flatMap((core) => mitredOut(core, acrossMm / 2));
  return without([ring], wide).filter((part) => isMoreThanSliver(part));
}

function isMoreThanSliver(part: Ring): boolean {
  const { widthMm, lengthMm } = boxOf(part);
  return signedAreaMm2(part) > TOUCHING_MM2 && Math.min(widthMm, lengthMm) > 10 * TOUCHING_MM;
}

function pastOutline(panel: WorkPanel, plan: Plan): string[] {
  const { id, exactRing } = panel;
  if (plan.frame === "none") return [];
  const { width } = plan.frame.batten;
  return plan.frame.battens.flatMap(({ panel: its, from, to }) => {
    if (its !== id) return [];
    const beyond = Math.max(
      ...[from, to].map(([x, y]) => (ringHolds(exactRing, x, y) ? 0 : distanceToRing(exactRing, x, y))),
    );
    return beyond <= width
      ? []
      : [
          `panel ${id}: its batten from ${at(from)} to ${at(to)} runs ${mm(beyond)} mm past the board; it is cut at the outline`,
        ];
  });
}

const KIND = { edge: "an edge batten", cross: "a cross batten", extra: "a batten of its own" } as const;

function onKeepOuts({ id, frame, keepOuts }: WorkPanel): string[] {
  return keepOuts.flatMap((keepOut) => {
    const kinds = new Set(
      (frame?.battens ?? []).filter((batten) => meets(batten, keepOut)).map(({ kind }) => KIND[kind]),
    );
    return kinds.size === 0
      ? []
      : [
          `panel ${id}: ${[...kinds].join(" and ")} ${kinds.size > 1 ? "meet" : "meets"} the ${keepOut.kind} ${keepOut.id}; ${kinds.size > 1 ? "they stay" : "it stays"} drawn: move one of them, or cut the batten and frame the opening`,
        ];
  });
}

function meets({ ring }: Batten, { shape }: KeepOut): boolean {
  if ("at" in shape) {
    const [x, y] = shape.at;
    return ringHolds(ring, x, y) || distanceToRing(ring, x, y) < shape.radiusMm - TOUCHING_MM;
  }
  return boxesMeet(boxOf(ring), boxOf(shape.ring)) && commonAreaMm2(ring, shape.ring) > TOUCHING_MM2;
}

const boxesMeet = (a: BoxMm, b: BoxMm) =>
  a.xMm < b.xMm + b.widthMm &&
  b.xMm < a.xMm + a.widthMm &&
  a.yMm < b.yMm + b.lengthMm &&
  b.yMm < a.yMm + a.lengthMm;
