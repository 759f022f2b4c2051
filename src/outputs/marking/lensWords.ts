import type { MarkingPicture } from "../../schedule/markingTypes.ts";

/** Farther off than this a check mark tells of a lens, or of a slip. */
const WORTH_A_WARNING_MM = 1;

/** What measured check marks tell of each picture; `warn` when one is too far off. */
export function lensWords(
  pictures: readonly MarkingPicture[],
): { readonly text: string; readonly warn: boolean }[] {
  return pictures.flatMap(({ id, checks }) => {
    const found = checks.flatMap(({ measured }) => (measured === null ? [] : [measured]));
    if (found.length === 0) return [];
    const off = checks.flatMap(({ measured }, k) =>
      measured === null
        ? []
        : [`${k + 1} by ${measured.offMm.toFixed(1)} mm (${measured.offPx.toFixed(1)} px)`],
    );
    const worst = Math.max(...found.map(({ offMm }) => offMm));
    const warn = worst > WORTH_A_WARNING_MM;
    return [
      {
        text: `marking ${id}: check marks are off: ${off.join(", ")}${
          warn
            ? "; if the four targets stand on their corners, the lens bends lines and no squaring mends it: zoom to the middle of the lens's range, mark a smaller part at a time, or use the paper template"
            : "; a plane holds the picture true"
        }`,
        warn,
      },
    ];
  });
}
