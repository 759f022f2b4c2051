import { type SizeSymbol, symbolsOf } from "../../render/sizeSymbols.ts";
import type { PdfPage } from "../pdf/page.ts";

/** How a hole is marked: a cross at its centre, a ring the size of the bit, the size's symbol round both. Lengths in mm. */
export interface Mark {
  readonly diameterMm: number;
  readonly bitMm: number;
  readonly symbol: SizeSymbol;
  readonly symbolScale: number;
  /** From the centre to the end of the cross. */
  readonly reachMm: number;
}

const LEAST_SYMBOL_SCALE = 1.5;
const CROSS_BEYOND_RING_MM = 2.2;

/** @param sizes those of the plan: symbols stay the same whichever of them a panel has */
export function marksOf(
  sizes: readonly { readonly diameter: number; readonly bit: number }[],
): ReadonlyMap<number, Mark> {
  const symbols = symbolsOf(sizes.map(({ diameter }) => diameter));
  return new Map(
    sizes.map(({ diameter, bit }) => {
      const symbol = symbols.get(diameter)!;
      // Every symbol is at least half as wide inside as it reaches, but a plus or a star.
      const symbolScale = Math.max(LEAST_SYMBOL_SCALE, (bit / 2 + 0.5) / (0.5 * symbol.reachMm));
      const reachMm = Math.max(bit / 2 + CROSS_BEYOND_RING_MM, symbol.reachMm * symbolScale + 0.4);
      return [diameter, { diameterMm: diameter, bitMm: bit, symbol, symbolScale, reachMm }];
    }),
  );
}

const SYMBOL_LINE_MM = 0.3;
const CROSS_LINE_MM = 0.1;
const RING_LINE_MM = 0.13;

/** @param scale paper mm for one mm on the board */
export function drawMark(page: PdfPage, mark: Mark, x: number, y: number, scale: number): void {
  const { symbol, symbolScale, bitMm, reachMm } = mark;
  page.shape(symbol.path(symbolScale), x, y, { widthMm: SYMBOL_LINE_MM, colour: symbol.colour });
  page.lines(
    [
      [x - reachMm, y, x + reachMm, y],
      [x, y - reachMm, x, y + reachMm],
    ],
    { widthMm: CROSS_LINE_MM },
  );
  page.circle(x, y, (bitMm / 2) * scale, { widthMm: RING_LINE_MM });
}
