import type { InkBox } from "./font.ts";
import { svgNumber as n } from "./svgText.ts";

/** Words over the ceiling: lines, and white under the words, lie under the holes, the words themselves above them. */
export interface InsideWords {
  readonly under: string;
  readonly over: string;
}

export const together = (parts: readonly InsideWords[]): InsideWords => ({
  under: parts.map(({ under }) => under).join("\n"),
  over: parts.map(({ over }) => over).join("\n"),
});

/** White under a word, so that lines do not run through it. */
export const backing = ({ leftMm, topMm, rightMm, bottomMm }: InkBox): string =>
  `<path class="backing" fill="#fff" d="M${n(leftMm - 0.2)} ${n(topMm)}H${n(rightMm + 0.2)}V${n(bottomMm)}H${n(leftMm - 0.2)}Z"/>`;
