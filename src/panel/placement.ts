import type { FramePlan, HoleRulesPlan } from "../plan/plan.ts";
import type { PointMm } from "../projection/frames.ts";
import { leastApartMm } from "./clearance.ts";
import { FullCells } from "./fullCells.ts";
import { type FoundPoint, LegalRegion, type Others } from "./legal.ts";
import { boxIndex, FEW_PANELS } from "./nearBoxes.ts";
import { ringHolds } from "./rings.ts";
import { makePress, type Press } from "./spread.ts";
import { TakenHoles } from "./takenHoles.ts";
import { boredConstraintsOf, constraintsOf, type WorkPanel } from "./work.ts";
import { isWhole, writtenMm } from "./written.ts";

export interface Place extends PointMm {
  readonly panel: number;
  /** Distance from the true point. */
  readonly shiftMm: number;
  /** On a batten, through a relief hole. */
  readonly bored: boolean;
}

/** A true point that wants a hole. */
export interface Wanted extends PointMm {
  readonly bitMm: number;
  /** May sit on a batten, if that is nearer. */
  readonly mayBore: boolean;
  /** No farther from its true point than this. */
  readonly reachMm: number;
}

/** Finds legal places on a fixed set of panels. */
export interface Placer {
  /** The panel a point falls on (of two that touch there, the first); -1 over a gap or the perimeter. */
  panelAt(xMm: number, yMm: number): number;
  /**
   * The legal place for a bit nearest to a true point, other holes left aside: on its own panel if it falls on one, else on any.
   * Null when no panel that may take it has a legal area for this bit; the caller compares `shiftMm` with its limit.
   */
  nearestPlace(xMm: number, yMm: number, bitMm: number, mayBore?: boolean): Place | null;
  /** Begins to place holes one after another, each at its distance from those before it. */
  begin(options: {
    /** None is larger, of those to come and of those already there. */
    readonly widestBitMm: number;
    /** Holes that are there already. */
    readonly taken?: readonly TakenHole[];
  }): Placing;
}

/** Holes that are placed one after another. */
export interface Placing {
  /**
   * @param spread  put it where the sky is pressed together beside dead strips (see spread.ts), not at the nearest place
   * @returns null, and nothing is placed, when there is no place within reach
   */
  place(wanted: Wanted, spread: boolean): Place | null;
}

/** A hole that is there already, ceiling frame. */
export interface TakenHole extends PointMm {
  readonly bitMm: number;
}

/** A relief hole is worth the trouble when it saves a star at least this much. */
const BORING_SAVES_MM = 1;
const FLOAT_MM = 1e-9;
/** A few holes a square, even where there are 20,000. */
const LEAST_CELL_MM = 16;
/** Two points, each half a hundredth off on both axes. */
const ROUNDING_MM = 0.0142;

export function makePlacer(
  panels: readonly WorkPanel[],
  rules: HoleRulesPlan,
  frame: FramePlan | "none" = "none",
): Placer {
  const regionOf = remembered((panel, bitMm) => new LegalRegion(constraintsOf(panels[panel]!, bitMm, rules)));
  const bored = frame === "none" ? undefined : frame.bored;
  const boredRegionOf = remembered((panel, bitMm) =>
    bored === undefined || panels[panel]!.frame === null
      ? null
      : new LegalRegion(boredConstraintsOf(panels[panel]!, bitMm, bored.diameter, rules)),
  );
  const pressOf = remembered(
    (panel, bitMm): Press => makePress(panels[panel]!, bitMm, rules, regionOf(panel, bitMm)),
  );

  const boxes = panels.length > FEW_PANELS ? boxIndex(panels.map(({ finished }) => finished)) : null;
  const covers = (panel: number, x: number, y: number): boolean => {
    const { finished, isRectangle, finishedRing } = panels[panel]!;
    return (
      x >= finished.xMm &&
      x <= finished.xMm + finished.widthMm &&
      y >= finished.yMm &&
      y <= finished.yMm + finished.lengthMm &&
      (isRectangle || ringHolds(finishedRing, x, y))
    );
  };
  const panelAt = (x: number, y: number): number => {
    if (boxes) {
      return boxes
        .search(x, y, x, y)
        .reduce((first, i) => ((first < 0 || i < first) && covers(i, x, y) ? i : first), -1);
    }
    for (let i = 0; i < panels.length; i++) if (covers(i, x, y)) return i;
    return -1;
  };
  /** Panels that may take a point: its own, or those in reach, the nearest box first. */
  const panelsFor = (x: number, y: number, reachMm: number): readonly number[] => {
    const own = panelAt(x, y);
    if (own >= 0) return [own];
    if (boxes) return boxes.neighbors(x, y, FEW_PANELS, reachMm);
    return panels.map((_, i) => i);
  };

  /** @param aim  where to look from, if that is not the true point (face frame) */
  const nearestOn = (
    panel: number,
    wanted: Wanted,
    others: Others | null,
    aim: readonly [number, number] | null,
  ): Place | null => {
    const { board } = panels[panel]!;
    const [x, y] = [wanted.xMm - board.xMm, wanted.yMm - board.yMm];
    const [ax, ay] = aim ?? [x, y];
    const reach = wanted.reachMm === Number.POSITIVE_INFINITY ? wanted.reachMm : 2 * wanted.reachMm;
    const plain = regionOf(panel, wanted.bitMm).nearest(ax, ay, others, reach);
    const place = (at: FoundPoint, isBored: boolean): Place => {
      // A pressed point is no true one: it is placed as it is written, lest a half be rounded up here and down there.
      const found = aim === null ? at : { x: writtenMm(at.x), y: writtenMm(at.y) };
      const moved = found.x !== x || found.y !== y;
      return {
        panel,
        xMm: moved ? board.xMm + found.x : wanted.xMm,
        yMm: moved ? board.yMm + found.y : wanted.yMm,
        shiftMm: moved ? Math.hypot(found.x - x, found.y - y) : 0,
        bored: isBored,
      };
    };
    const usual = plain === null ? null : place(plain, false);
    if (!wanted.mayBore || bored === undefined || (usual !== null && usual.shiftMm < BORING_SAVES_MM))
      return usual;
    const through = boredRegionOf(panel, wanted.bitMm)?.nearest(x, y, others, wanted.reachMm) ?? null;
    if (through === null || regionOf(panel, wanted.bitMm).allows(through.x, through.y)) return usual;
    return usual === null || through.distance < usual.shiftMm - BORING_SAVES_MM
      ? place(through, true)
      : usual;
  };
  const nearest = (
    wanted: Wanted,
    others: ((panel: number) => Others) | null,
    aimOn: ((panel: number) => readonly [number, number]) | null,
  ): Place | null => {
    let best: Place | null = null;
    for (const panel of panelsFor(wanted.xMm, wanted.yMm, wanted.reachMm)) {
      const place = nearestOn(panel, wanted, others?.(panel) ?? null, aimOn?.(panel) ?? null);
      if (place !== null && (best === null || place.shiftMm < best.shiftMm)) best = place;
    }
    return best;
  };

  return {
    panelAt,
    nearestPlace: (xMm, yMm, bitMm, mayBore = false) =>
      nearest({ xMm, yMm, bitMm, mayBore, reachMm: Number.POSITIVE_INFINITY }, null, null),
    begin({ widestBitMm, taken: already = [] }) {
      const mostApart = leastApartMm(rules.spacing, widestBitMm, ROUNDING_MM);
      const taken = new TakenHoles(Math.max(LEAST_CELL_MM, mostApart));
      for (const { xMm, yMm, bitMm } of already) taken.add(xMm, yMm, bitMm);
      // A star that is not moved is rounded once on its board and once on the ceiling: the two may differ.
      const stray = panels.every(({ board }) => isWhole(board.xMm) && isWhole(board.yMm)) ? 0 : ROUNDING_MM;
      const need = (bitMm: number, otherMm: number) =>
        leastApartMm(rules.spacing, Math.max(bitMm, otherMm), stray);
      const around = (bitMm: number, panel: number): Others => {
        const { xMm, yMm } = panels[panel]!.board;
        return {
          conflicts(xFace, yFace) {
            const [x, y] = [xFace + xMm, yFace + yMm];
            const near = taken.near(x, y, mostApart);
            for (let i = 0; i < near.length; i += 3) {
              const least = need(bitMm, near[i + 2]!) - FLOAT_MM;
              if ((near[i]! - x) ** 2 + (near[i + 1]! - y) ** 2 < least * least) return true;
            }
            return false;
          },
          near(xFace, yFace, within) {
            const circles = taken.near(xFace + xMm, yFace + yMm, within + mostApart);
            for (let i = 0; i < circles.length; i += 3) {
              circles[i]! -= xMm;
              circles[i + 1]! -= yMm;
              circles[i + 2] = need(bitMm, circles[i + 2]!);
            }
            return circles;
          },
        };
      };
      const take = (place: Place, bitMm: number) => {
        // As it is written: distances are kept between the rounded places.
        const { xMm, yMm } = panels[place.panel]!.board;
        taken.add(xMm + writtenMm(place.xMm - xMm), yMm + writtenMm(place.yMm - yMm), bitMm);
        return place;
      };
      const full: (FullCells | undefined)[] = [];
      const cellMm = Math.max(1, rules.maxShift / 6);
      const isFullAround = ({ xMm, yMm, reachMm, bitMm }: Wanted) =>
        full.length > 0 &&
        panelsFor(xMm, yMm, reachMm).every((panel) => {
          const { board } = panels[panel]!;
          return full[panel]?.isFull(xMm - board.xMm, yMm - board.yMm, reachMm, bitMm) ?? false;
        });
      const markFullAround = ({ xMm, yMm, reachMm, bitMm }: Wanted) => {
        for (const panel of panelsFor(xMm, yMm, reachMm)) {
          const { board } = panels[panel]!;
          full[panel] ??= new FullCells(board.widthMm, board.lengthMm, cellMm);
          full[panel].markFull(xMm - board.xMm, yMm - board.yMm, reachMm, bitMm);
        }
      };
      return {
        place(one, spread) {
          if (!one.mayBore && isFullAround(one)) return null;
          const others = (panel: number) => around(one.bitMm, panel);
          const aimOn = (panel: number) => {
            const { xMm, yMm } = panels[panel]!.board;
            return pressOf(panel, one.bitMm)(one.xMm - xMm, one.yMm - yMm);
          };
          let place = spread ? nearest(one, others, aimOn) : null;
          if (place === null || place.shiftMm > one.reachMm) place = nearest(one, others, null);
          if (place === null || place.shiftMm > one.reachMm) {
            markFullAround(one);
            return null;
          }
          return take(place, one.bitMm);
        },
      };
    },
  };
}

function remembered<T>(make: (panel: number, bitMm: number) => T): (panel: number, bitMm: number) => T {
  const byBit = new Map<number, T[]>();
  return (panel, bitMm) => {
    let list = byBit.get(bitMm);
    if (list === undefined) {
      list = [];
      byBit.set(bitMm, list);
    }
    list[panel] ??= make(panel, bitMm);
    return list[panel]!;
  };
}
