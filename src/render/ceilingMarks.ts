import type { Shape } from "../panel/keepOuts.ts";
import type { Ring } from "../panel/rings.ts";
import { hatching } from "./ceilingKeepOuts.ts";
import type { CeilingScene } from "./ceilingScene.ts";
import type { SizeSymbol } from "./sizeSymbols.ts";
import { svgNumber as n } from "./svgText.ts";

/**
 * What a drawing shows of a ceiling in true millimetres of the ceiling frame, y UP: for a group with `ceilingTransform`.
 * Line widths and symbols are given in paper mm times `denominator`.
 */
export interface MarkStyle {
  readonly denominator: number;
  readonly symbols: ReadonlyMap<number, SizeSymbol>;
  /** Symbols get smaller on a crowded ceiling. */
  readonly symbolScale: number;
}

const HATCH_MM = 1.8;
/** Shorter arrows on paper would be all head. */
const SHORTEST_ARROW_MM = 1.6;
const SCREW_MM = 0.55;
const HANGER_MM = 1.25;

/** Shifts from this many mm on are drawn as arrows: what shows at the scale, in whole steps of 5 mm. */
export const arrowsFromMm = (denominator: number): number => {
  const mm = SHORTEST_ARROW_MM * denominator;
  return mm > 5 ? Math.ceil(mm / 5) * 5 : Math.ceil(mm);
};

const ringPath = (ring: Ring): string => `M${ring.map(([x, y]) => `${n(x)} ${n(y)}`).join("L")}Z`;

const shapePath = (shape: Shape): string => {
  if ("ring" in shape) return ringPath(shape.ring);
  const [x, y] = shape.at;
  const r = n(shape.radiusMm);
  return `M${n(x + shape.radiusMm)} ${n(y)}A${r} ${r} 0 0 1 ${n(x - shape.radiusMm)} ${n(y)}A${r} ${r} 0 0 1 ${n(x + shape.radiusMm)} ${n(y)}Z`;
};

const symbolId = (diameterMm: number) => `size-${String(diameterMm).replace(".", "_")}`;

/** Symbols for `defs`: in ceiling mm, to be used within the transformed group or, with a scale, elsewhere. */
export function markDefs({ denominator, symbols, symbolScale }: MarkStyle): string {
  const k = denominator;
  return [
    ...[...symbols].map(
      ([diameterMm, symbol]) =>
        `<path id="${symbolId(diameterMm)}" d="${symbol.path(symbolScale * k)}" fill="${symbol.colour}" stroke="#fff" stroke-width="${n(0.14 * k)}" paint-order="stroke"/>`,
    ),
    `<path id="screw" d="M${n(-SCREW_MM * k)} ${n(-SCREW_MM * k)}L${n(SCREW_MM * k)} ${n(SCREW_MM * k)}M${n(-SCREW_MM * k)} ${n(SCREW_MM * k)}L${n(SCREW_MM * k)} ${n(-SCREW_MM * k)}" fill="none" stroke="#000" stroke-width="${n(0.2 * k)}"/>`,
    `<g id="hanger" fill="none" stroke="#000" stroke-width="${n(0.25 * k)}"><circle r="${n(HANGER_MM * k)}" fill="#fff"/><circle r="${n(0.45 * k)}" fill="#000" stroke="none"/></g>`,
  ].join("\n");
}

/** Panels, boards, battens, keep-outs, screws and hanging points. */
export function structure(scene: CeilingScene, { denominator: k }: MarkStyle): string {
  const points = (id: string, of: (panel: CeilingScene["panels"][number]) => Ring, symbol: string) =>
    `<g id="${id}">${scene.panels
      .flatMap((panel) => of(panel).map(([x, y]) => `<use href="#${symbol}" x="${n(x)}" y="${n(y)}"/>`))
      .join("")}</g>`;
  return [
    `<g id="battens" fill="#f4ecdf" stroke="#7a6a50" stroke-width="${n(0.18 * k)}" stroke-dasharray="${n(1.8 * k)} ${n(0.9 * k)}">`,
    ...scene.panels.flatMap((panel) =>
      panel.battens.map((ring) => `<path data-panel="${panel.id}" d="${ringPath(ring)}"/>`),
    ),
    "</g>",
    `<g id="boards" fill="none" stroke="#000" stroke-width="${n(0.1 * k)}">`,
    ...scene.panels.map((panel) => `<path id="board-${panel.id}" d="${ringPath(panel.board)}"/>`),
    "</g>",
    `<g id="panels" fill="none" stroke="#000" stroke-width="${n(0.3 * k)}" stroke-linejoin="miter">`,
    ...scene.panels.map((panel) => `<path id="panel-${panel.id}" d="${ringPath(panel.finished)}"/>`),
    "</g>",
    '<g id="keepouts">',
    ...scene.keepOuts.map(({ id, kind, shape }) => {
      const hatch = hatching(shape, HATCH_MM * k).map(
        ([ax, ay, bx, by]) => `M${n(ax)} ${n(ay)}L${n(bx)} ${n(by)}`,
      );
      const centre =
        "at" in shape
          ? `<path class="centre" fill="none" stroke="#000" stroke-width="${n(0.18 * k)}" d="${cross(shape.at, Math.min(1.5 * k, shape.radiusMm))}"/>`
          : "";
      return `<g id="keepout-${id}" data-kind="${kind}"><path class="outline" fill="#fff" stroke="#000" stroke-width="${n(0.35 * k)}" d="${shapePath(shape)}"/><path class="hatch" fill="none" stroke="#555" stroke-width="${n(0.15 * k)}" d="${hatch.join("")}"/>${centre}</g>`;
    }),
    "</g>",
    points("screws", (panel) => panel.screws, "screw"),
    points("hangers", (panel) => panel.hangers, "hanger"),
  ].join("\n");
}

const cross = ([x, y]: readonly [number, number], r: number): string =>
  `M${n(x - r)} ${n(y)}H${n(x + r)}M${n(x)} ${n(y - r)}V${n(y + r)}`;

/** Arrows from true places to drilled ones, rings of relief holes, and a symbol at every hole. */
export function drilling(scene: CeilingScene, style: MarkStyle): string {
  const { denominator: k, symbols, symbolScale } = style;
  const reachOf = (diameterMm: number) => symbols.get(diameterMm)!.reachMm * symbolScale * k;
  const fromMm = arrowsFromMm(k);
  const arrows = scene.holes.flatMap((hole) => {
    if (hole.shiftMm < fromMm) return [];
    const [dx, dy] = [hole.ceilingXMm - hole.skyXMm, hole.ceilingYMm - hole.skyYMm];
    const long = Math.hypot(dx, dy);
    const [ux, uy] = [dx / long, dy / long];
    const tip = Math.max(0.4 * long, long - reachOf(hole.diameterMm));
    const [x, y] = [hole.skyXMm + ux * tip, hole.skyYMm + uy * tip];
    const barb = (side: number) =>
      `${n(x - 0.75 * k * ux - side * 0.34 * k * uy)} ${n(y - 0.75 * k * uy + side * 0.34 * k * ux)}`;
    return [
      `<path id="shift-${hole.hole}" d="M${n(hole.skyXMm)} ${n(hole.skyYMm)}L${n(x)} ${n(y)}M${barb(1)}L${n(x)} ${n(y)}L${barb(-1)}"/>`,
    ];
  });
  const relief = scene.holes.flatMap((hole) => {
    if (!scene.bored.has(hole.hole)) return [];
    const r = Math.max((scene.reliefMm ?? 0) / 2, reachOf(hole.diameterMm) + 0.5 * k);
    return [
      `<circle id="relief-${hole.hole}" cx="${n(hole.ceilingXMm)}" cy="${n(hole.ceilingYMm)}" r="${n(r)}"/>`,
    ];
  });
  return [
    `<g id="shifts" fill="none" stroke="#111" stroke-width="${n(0.18 * k)}" stroke-linejoin="round" stroke-linecap="round">`,
    ...arrows,
    "</g>",
    `<g id="reliefs" fill="none" stroke="#000" stroke-width="${n(0.25 * k)}">`,
    ...relief,
    "</g>",
    '<g id="holes">',
    // The thinnest last: small marks lie on large ones, not under them.
    ...[...scene.sizes]
      .reverse()
      .flatMap(({ diameterMm, bitMm }) => [
        `<g class="size" data-diameter-mm="${diameterMm}" data-bit-mm="${bitMm}" data-symbol="${symbols.get(diameterMm)!.name}">`,
        ...scene.holes
          .filter((hole) => hole.diameterMm === diameterMm)
          .map(
            (hole) =>
              `<use id="hole-${hole.hole}" href="#${symbolId(diameterMm)}" x="${n(hole.ceilingXMm)}" y="${n(hole.ceilingYMm)}"/>`,
          ),
        "</g>",
      ]),
    "</g>",
  ].join("\n");
}

/** One mark on the legend, at its size on the drawing. */
export const markAt = (id: string, xMm: number, yMm: number, denominator: number): string => {
  const scale = Number((1 / denominator).toFixed(10));
  return `<use href="#${id}" transform="translate(${n(xMm)} ${n(yMm)}) scale(${scale} ${-scale})"/>`;
};

export const sizeMarkAt = (diameterMm: number, xMm: number, yMm: number, denominator: number): string =>
  markAt(symbolId(diameterMm), xMm, yMm, denominator);
