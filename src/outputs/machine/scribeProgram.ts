import { RETRACT_MM } from "../../plan/cncDepth.ts";
import { faceToBack } from "../../projection/frames.ts";
import { type ProgramOf, pairWords } from "./drillPrograms.ts";
import { comment, comments, type Dialect, ending, number, preamble, program, spindleOn } from "./gcode.ts";
import { headWords } from "./machineWords.ts";
import { bareWords } from "./passWords.ts";
import { lineInWindow, type SetUp } from "./setUps.ts";
import { scribeToolNumber } from "./tools.ts";

/** A scratch that glue fills. */
const SCRIBE_DEEP_MM = 0.3;

/**
 * Outlines of the battens, scratched into the BACK for whoever glues them on; by file name: scribe.nc, or scribe-1.nc ..
 * A line that two set-ups reach is scribed by each as far as it reaches.
 */
export function scribePrograms(
  { panel, proofs, plan }: ProgramOf,
  setUps: readonly SetUp[],
  dialect: Dialect,
): Map<string, string> {
  const { safeHeight, spindle, scribeFeed } = plan.cnc;
  const tool = scribeToolNumber(plan);
  return new Map(
    setUps.map((setUp) => {
      const lines = linesOf(panel.battensMm, setUp).map(([from, to]) => [
        faceToBack({ xMm: from[0], yMm: from[1] }, panel.widthMm),
        faceToBack({ xMm: to[0], yMm: to[1] }, panel.widthMm),
      ]);
      const head = headWords(
        {
          title: "lines of the battens, to be scribed",
          frame: "BACK",
          dialect,
          setUp,
          setUps: setUps.length,
          depth: `Scratches ${SCRIBE_DEEP_MM} mm deep: nothing goes through the board.`,
          notes: [
            `Run it ${bareWords(panel)}.`,
            ...(setUps.length > 1 && setUp.datums !== null
              ? [
                  `Lay the board on pins in the datum holes of set-up ${setUp.number} again, which from the BACK are ${pairWords(setUp.datums, "BACK", panel.widthMm, plan, "final")}.`,
                ]
              : []),
          ],
        },
        panel,
        proofs,
        plan,
      );
      const change =
        dialect === "rs274"
          ? [
              ...comment(`MSG, put the scribing tool in as T${tool}, then set Z0 anew on the board`),
              `T${tool} M6`,
            ]
          : [];
      return [
        setUps.length === 1 ? "scribe.nc" : `scribe-${setUp.number}.nc`,
        program(
          [
            ...comments(head),
            ...comment(`T${tool}: scribing tool or V bit, ${lines.length} lines ${SCRIBE_DEEP_MM} mm deep`),
            ...preamble(safeHeight, dialect),
            ...change,
            ...spindleOn(spindle),
            `G0 Z${number(safeHeight)}`,
            ...lines.flatMap(([from, to]) => [
              `G0 X${number(from!.xMm)} Y${number(from!.yMm)}`,
              `G0 Z${number(RETRACT_MM)}`,
              `G1 Z${number(-SCRIBE_DEEP_MM)} F${number(scribeFeed / 4)}`,
              `G1 X${number(to!.xMm)} Y${number(to!.yMm)} F${number(scribeFeed)}`,
              `G0 Z${number(safeHeight)}`,
            ]),
            ...ending(safeHeight),
          ],
          dialect,
        ),
      ] as const;
    }),
  );
}

type Line = readonly [readonly [number, number], readonly [number, number]];

/** Sides of the battens within reach, each once: neighbours share mitres. */
function linesOf(battensMm: readonly (readonly (readonly [number, number])[])[], { window }: SetUp): Line[] {
  const seen = new Set<string>();
  return battensMm.flatMap((ring) =>
    ring.flatMap((from, i): Line[] => {
      const to = ring[(i + 1) % ring.length]!;
      const ends = [from.join(), to.join()].sort();
      if (seen.has(ends.join(" "))) return [];
      seen.add(ends.join(" "));
      const piece = lineInWindow(window, from, to);
      return piece === null ? [] : [piece];
    }),
  );
}
