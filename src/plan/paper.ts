import type { Problem } from "./describeIssue.ts";
import type { PaperName, PaperPlan } from "./plan.ts";

export const PAPER_NAMES = ["A4", "A3", "Letter", "Tabloid"] as const satisfies readonly PaperName[];

/** Width and height of a sheet held upright. Sources: ISO 216 (A4, A3); ANSI/ASME Y14.1, sizes A and B: 8.5 x 11 and 11 x 17 in. */
const SHEETS_MM: Readonly<Record<PaperName, readonly [number, number]>> = {
  A4: [210, 297],
  A3: [297, 420],
  Letter: [215.9, 279.4],
  Tabloid: [279.4, 431.8],
};

/** Height of what a roll is fed by when it need not be longer. */
const ROLL_PAGE_MM = 420;
/** 14,400 units of 1/72 in: the longest page of a PDF without UserUnit (ISO 32000-1). */
export const LONGEST_PAGE_MM = 5080;

/** Below and beside a tile: words and rulers. */
export const WORDS_BELOW_MM = 20;
export const WORDS_BESIDE_MM = 8;

/** A tile narrower than this could carry neither ruler nor words. */
const LEAST_TILE_MM = 120;
const WIDEST_ROLL_MM = 2000;

/** Width and height of a page; of a roll the least height. */
export const pageSizeMm = (size: PaperPlan["size"]): readonly [number, number] =>
  typeof size === "string" ? SHEETS_MM[size] : [size.roll, ROLL_PAGE_MM];

type Bits = readonly { readonly bit: number }[];

const widestBitMm = (sizes: Bits) => Math.max(0, ...sizes.map(({ bit }) => bit));

/** Room for the mark of any hole with its number: ring, cross and symbol reach at most twice the bit and 10 mm across. */
export const leastOverlapMm = (sizes: Bits): number => Math.ceil(2 * widestBitMm(sizes) + 10);

/** 10 mm is common practice; a mark with its number asks for a little more. */
export const usualOverlapMm = (sizes: Bits): number => Math.max(14, leastOverlapMm(sizes));

/** More is no paper that grew with damp, but a printer that scales. */
const FARTHEST_MEASURE_MM = 3;

/** What is wrong with the paper, by key. @param leastOverlap of the bits in use */
export function paperProblems(
  { size, margin, overlap, measured100 }: PaperPlan,
  leastOverlap: number,
): Problem[] {
  const problem = (key: string, message: string): Problem => ({
    path: ["paper", key],
    atKey: false,
    message,
  });
  if (typeof size !== "string" && size.roll > WIDEST_ROLL_MM)
    return [problem("size", `a roll ${size.roll} mm wide is over ${WIDEST_ROLL_MM} mm; check the unit`)];
  const [widthMm, heightMm] = pageSizeMm(size);
  const name = typeof size === "string" ? size : `a roll ${size.roll} mm wide`;
  const tileMm = Math.min(widthMm - 2 * margin - WORDS_BESIDE_MM, heightMm - 2 * margin - WORDS_BELOW_MM);
  if (tileMm < LEAST_TILE_MM) {
    const most = Math.floor((tileMm + 2 * margin - LEAST_TILE_MM) / 2);
    return [
      most >= 0
        ? problem(
            "margin",
            `${margin} mm leaves too little of ${name}: a tile needs ${LEAST_TILE_MM} mm each way beside its words; write ${most}mm or less, or larger paper`,
          )
        : problem(
            "size",
            `${name} is too small: a tile needs ${LEAST_TILE_MM} mm each way beside its words; take wider paper`,
          ),
    ];
  }
  const found: Problem[] = [];
  if (overlap < leastOverlap)
    found.push(
      problem(
        "overlap",
        `${overlap} mm is less than the mark of a hole with its number, which must be whole on one of two tiles; write ${leastOverlap}mm or more`,
      ),
    );
  if (overlap > tileMm / 2)
    found.push(
      problem("overlap", `${overlap} mm is over half of a tile; write ${Math.floor(tileMm / 2)}mm or less`),
    );
  if (Math.abs(measured100 - 100) > FARTHEST_MEASURE_MM)
    found.push(
      problem(
        "measured100",
        `a ruler of 100 mm that measures ${measured100} mm was not printed at 100 %: choose "actual size" in the print dialogue and measure again (from ${100 - FARTHEST_MEASURE_MM} to ${100 + FARTHEST_MEASURE_MM} mm is taken)`,
      ),
    );
  return found;
}
