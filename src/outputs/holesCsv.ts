import { faceToBack } from "../projection/frames.ts";
import type { Hole, PanelRecord } from "../schedule/types.ts";
import { csvText, fixed, shortest } from "./csv.ts";

const HEADER = ["hole", "x_mm", "y_mm", "diameter_mm", "bit_mm", "from_reference_mm", "name"] as const;

/**
 * holes-face.csv (FACE: as seen from the room) or holes-back.csv (BACK: mirrored, the board turned over about its
 * vertical axis). `from_reference_mm` is the distance from the reference edge, the face's left edge, in both.
 * @param holes those of this panel
 */
export const holesCsv = (frame: "face" | "back", panel: PanelRecord, holes: readonly Hole[]): string =>
  csvText(
    HEADER,
    holes.map((hole) => {
      const point = frame === "face" ? hole : faceToBack(hole, panel.widthMm);
      return [
        hole.hole,
        fixed(point.xMm, 2),
        fixed(point.yMm, 2),
        shortest(hole.diameterMm),
        shortest(hole.bitMm),
        fixed(hole.xMm, 2),
        hole.name,
      ];
    }),
  );
