import type { Ring } from "../panel/rings.ts";
import { ringCrossesBox } from "./boxInRing.ts";
import { type Disc, discGrid } from "./discGrid.ts";
import type { InkBox } from "./font.ts";
import { glowPerDiameter } from "./glow.ts";
import type { PreviewScene } from "./previewScene.ts";

/**
 * Where words may go. All of labelling works in the PICTURE frame: mm from the upper-left corner, x right, y down, as in
 * SVG. `toPicture` is the one place where the ceiling's y is turned over.
 */
export interface PicturePoint {
  readonly x: number;
  readonly y: number;
}

export function toPicture(
  scene: PreviewScene,
  ceiling: { readonly xMm: number; readonly yMm: number },
): PicturePoint {
  return { x: ceiling.xMm, y: scene.lengthMm - ceiling.yMm };
}

/** Corners of a panel in the picture frame. */
export const outlineInPicture = (scene: PreviewScene, outlineMm: Ring): Ring =>
  outlineMm.map(([xMm, yMm]) => {
    const { x, y } = toPicture(scene, { xMm, yMm });
    return [x, y] as const;
  });

/** The scene's dots as the eye takes them, the glow down to a tenth: bright ones keep words away, faint ones only repel them. */
export interface DotDiscs {
  readonly bright: readonly Disc[];
  readonly faint: readonly Disc[];
  /** Those of the bright that have a name. */
  readonly named: readonly Disc[];
  /** Radius of the dot at this very point, 0 where there is none. */
  radiusMmAt(point: { readonly xMm: number; readonly yMm: number }): number;
}

const eyeRadiusInGlows = 2.2;
/** Whole diameters, thickest first, count as bright while no more than this many dots do: about what names can go around. */
export const mostBrightDots = 300;

export function dotDiscs(
  scene: PreviewScene,
  leastThinnestMm: number,
  mostBright = mostBrightDots,
): DotDiscs {
  const glow = glowPerDiameter(scene, leastThinnestMm);
  const counts = new Map<number, number>();
  for (const dot of scene.dots) counts.set(dot.diameterMm, (counts.get(dot.diameterMm) ?? 0) + 1);
  const brightDiameters = new Set<number>();
  let brightCount = 0;
  for (const [diameterMm, count] of [...counts].sort(([a], [b]) => b - a)) {
    brightCount += count;
    if (brightCount > mostBright) break;
    brightDiameters.add(diameterMm);
  }
  const keyOf = (point: { readonly xMm: number; readonly yMm: number }): string =>
    `${point.xMm} ${point.yMm}`;
  const namedRadiusMm = new Map(scene.names.map((name) => [keyOf(name), 0]));
  const bright: Disc[] = [];
  const faint: Disc[] = [];
  const named: Disc[] = [];
  for (const dot of scene.dots) {
    const radiusMm = dot.diameterMm * glow * eyeRadiusInGlows;
    const isNamed = namedRadiusMm.has(keyOf(dot));
    if (isNamed) namedRadiusMm.set(keyOf(dot), radiusMm);
    const disc = { ...toPicture(scene, dot), radiusMm };
    if (isNamed) named.push(disc);
    (isNamed || brightDiameters.has(dot.diameterMm) ? bright : faint).push(disc);
  }
  return { bright, faint, named, radiusMmAt: (point) => namedRadiusMm.get(keyOf(point)) ?? 0 };
}

export function movedBy(box: InkBox, dx: number, dy: number): InkBox {
  return {
    leftMm: box.leftMm + dx,
    topMm: box.topMm + dy,
    rightMm: box.rightMm + dx,
    bottomMm: box.bottomMm + dy,
  };
}

export function grownBy(box: InkBox, byMm: number): InkBox {
  return {
    leftMm: box.leftMm - byMm,
    topMm: box.topMm - byMm,
    rightMm: box.rightMm + byMm,
    bottomMm: box.bottomMm + byMm,
  };
}

/** Whether two boxes come closer than `gapMm` along both axes. */
export function boxesMeet(a: InkBox, b: InkBox, gapMm: number): boolean {
  return (
    a.leftMm < b.rightMm + gapMm &&
    b.leftMm < a.rightMm + gapMm &&
    a.topMm < b.bottomMm + gapMm &&
    b.topMm < a.bottomMm + gapMm
  );
}

/** What is taken already, and what a box would cost. */
export interface LabelRoom {
  /** Clear of words, bright dots and the picture's border. */
  isFree(box: InkBox): boolean;
  /** Faint dots that the box would touch or almost touch. */
  faintDotsUnder(box: InkBox): number;
  /** Named dots so near that the box would stand where their names want to go. */
  namedDotsBeside(box: InkBox): number;
  /** Whether a seam would run through the box. */
  crossesSeam(box: InkBox): boolean;
  /** Whether a line of a figure would run through the box. Boundaries do not count: there is no getting away from them. */
  crossesFigure(box: InkBox): boolean;
  take(box: InkBox): void;
}

export function labelRoom(scene: PreviewScene, discs: DotDiscs, unitMm: number): LabelRoom {
  const wordGapMm = 1.2 * unitMm;
  const dotGapMm = 0.35 * unitMm;
  const borderMm = unitMm;
  const taken: InkBox[] = [];
  const bright = discGrid(discs.bright, 8 * unitMm);
  const faint = discGrid(discs.faint, 8 * unitMm);
  const named = discGrid(discs.named, 8 * unitMm);
  const figures = discGrid(figureDiscs(scene, unitMm), 8 * unitMm);
  const panels = scene.panels.map((panel) => {
    const corner = toPicture(scene, panel); // lower left
    const box = {
      leftMm: corner.x,
      rightMm: corner.x + panel.widthMm,
      topMm: corner.y - panel.lengthMm,
      bottomMm: corner.y,
    };
    const ring = panel.outlineMm && outlineInPicture(scene, panel.outlineMm);
    return { box, ring };
  });
  const contains = (outer: InkBox, inner: InkBox): boolean =>
    inner.leftMm >= outer.leftMm &&
    inner.rightMm <= outer.rightMm &&
    inner.topMm >= outer.topMm &&
    inner.bottomMm <= outer.bottomMm;
  const inside = {
    leftMm: borderMm,
    topMm: borderMm,
    rightMm: scene.widthMm - borderMm,
    bottomMm: scene.lengthMm - borderMm,
  };
  return {
    isFree: (box) =>
      contains(inside, box) &&
      !taken.some((other) => boxesMeet(box, other, wordGapMm)) &&
      bright.countNear(box, dotGapMm) === 0,
    faintDotsUnder: (box) => faint.countNear(box, dotGapMm),
    namedDotsBeside: (box) => named.countNear(box, 5 * unitMm),
    crossesSeam: (box) =>
      panels.some((panel) =>
        panel.ring
          ? ringCrossesBox(panel.ring, box)
          : boxesMeet(panel.box, box, 0) && !contains(panel.box, box),
      ),
    crossesFigure: (box) => figures.countNear(box, dotGapMm) > 0,
    take: (box) => {
      taken.push(box);
    },
  };
}

/** Figure lines as rows of small discs, close enough for no word to slip between. */
function figureDiscs(scene: PreviewScene, unitMm: number): Disc[] {
  const discs: Disc[] = [];
  for (const chain of scene.lines?.figures ?? [])
    for (let i = 1; i < chain.length; i++) {
      const [a, b] = [toPicture(scene, chain[i - 1]!), toPicture(scene, chain[i]!)];
      const steps = Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / unitMm);
      for (let step = 0; step <= steps; step++) {
        const part = steps === 0 ? 0 : step / steps;
        discs.push({ x: a.x + part * (b.x - a.x), y: a.y + part * (b.y - a.y), radiusMm: 0 });
      }
    }
  return discs;
}
