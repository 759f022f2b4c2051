import type { WallGap } from "../panel/perimeter.ts";
import { CLOTH_KG_PER_M2, CREEP } from "../panel/sag.ts";
import { upToTenths as mm } from "../plan/mmWords.ts";
import type { WallSide } from "../plan/plan.ts";
import type { RoomFit, RoomMeasure } from "../plan/roomFit.ts";
import type { BuildReport, FrameReport } from "../schedule/buildReport.ts";
import type { Schedule } from "../schedule/types.ts";

type Row = [string, string];

/** Whole millimetres where a tape is, tenths where a saw is. */
const labelled = (label: string, lines: readonly string[]): Row[] =>
  lines.map((line, i) => [i === 0 ? label : "", line]);
const named = (holes: readonly { readonly name: string; readonly hole: string }[]) =>
  holes.map(({ name, hole }) => name || hole).join(", ");

/** Room, keep-outs and frames in the words of `check`. */
export const buildRows = (schedule: Schedule, { room, keepOuts, frame }: BuildReport): Row[] => [
  ...(room === null
    ? []
    : [
        ...(room.fit === null ? [] : labelled("Room", roomLines(schedule, room.fit))),
        ...labelled("Perimeter", room.perimeter.map(perimeterLine)),
      ]),
  ...labelled("Keep-outs", keepOutLines(keepOuts)),
  ...(frame === null ? [] : labelled("Frames", frameLines(schedule, frame))),
];

function roomLines({ plan }: Schedule, fit: RoomFit): string[] {
  const wall = (side: WallSide) => plan.walls[side] ?? `${side} wall`;
  const inWords: Readonly<Record<RoomMeasure, string>> = {
    "sides.top": wall("top"),
    "sides.right": wall("right"),
    "sides.bottom": wall("bottom"),
    "sides.left": wall("left"),
    "diagonals.risingRight": "diagonal from lower left to upper right",
    "diagonals.fallingRight": "diagonal from upper left to lower right",
  };
  const signed = (value: number) => `${value > 0 ? "+" : ""}${Number(value.toFixed(1))}`;
  const { worst } = fit;
  return [
    `bounding rectangle ${mm(fit.widthMm)} x ${mm(fit.lengthMm)} mm, square to the ${wall(plan.ceiling.squareTo!)}; corners seen from below: ${fit.outline.map(([x, y]) => `[${mm(x)}, ${mm(y)}]`).join(", ")}`,
    `six measures fit by least squares: ${fit.misfits.map(({ measure, measuredMm, fittedMm }) => `${inWords[measure]} ${mm(measuredMm)} (${signed(fittedMm - measuredMm)})`).join(", ")}; misfit ${mm(fit.rmsMm)} mm RMS`,
    `${inWords[worst.measure]} disagrees most, by ${mm(Math.abs(worst.fittedMm - worst.measuredMm))} mm; were it alone at fault, it would have to be ${mm(worst.aloneMm)}. One measure too many cannot tell which is wrong: in doubt measure both diagonals again`,
  ];
}

const ENDS: Readonly<Record<WallSide, readonly [string, string]>> = {
  top: ["left", "right"],
  bottom: ["left", "right"],
  left: ["lower", "upper"],
  right: ["lower", "upper"],
};

function perimeterLine({ wall, fromMm, toMm }: WallGap): string {
  if (Math.abs(fromMm - toMm) < 0.05) return `${mm(fromMm)} mm along the ${wall.name}`;
  const [from, to] = ENDS[wall.side];
  return `${mm(fromMm)} mm at the ${from} to ${mm(toMm)} mm at the ${to} end of the ${wall.name}`;
}

const keepOutLines = (places: BuildReport["keepOuts"]): string[] =>
  places.map(({ keepOut, from }) => {
    const { id, kind, stars, frontMm, behindMm, shape } = keepOut;
    const where = from.map(({ wall, mm: away }) => `${mm(away)} from the ${wall.name}`).join(", ");
    const clear = [
      ...(frontMm > 0 ? [`${mm(frontMm)} mm in front`] : []),
      ...(behindMm > 0 ? [`${mm(behindMm)} mm behind`] : []),
    ];
    return [
      `${kind} ${id}: ${"at" in shape ? "its centre " : ""}${where}`,
      ...(clear.length > 0 ? [`keep clear ${clear.join(" and ")}`] : []),
      stars === "drop" ? "stars under it are left out" : "stars under it are moved",
    ].join("; ");
  });

const MOST_MOVES = 5;

function frameLines({ plan }: Schedule, frame: FrameReport): string[] {
  const lines = frame.ways.map(
    ({ lying, widthMm, depthMm, laneMm, edgeBandMm, deadShare, aboveBattensMm, sag }, i) =>
      [
        `battens ${mm(widthMm)} wide and ${mm(depthMm)} deep (${lying}${i === 0 ? ", as planned" : ""}): ${
          laneMm === null
            ? `no star within ${mm(edgeBandMm)} mm of the panel's edge`
            : `starless lane at a seam ${mm(laneMm[0])}${laneMm[1] - laneMm[0] > 0.05 ? ` to ${mm(laneMm[1])}` : ""} mm wide`
        }`,
        `${(100 * deadShare).toFixed(1)} % of the panels closed to holes`,
        ...(aboveBattensMm === null
          ? []
          : [
              aboveBattensMm > 0
                ? `${mm(aboveBattensMm)} mm left for fibres above them`
                : "NO ROOM for fibres above them",
            ]),
        ...(sag === null
          ? []
          : [`the board sags ${mm(sag.sagMm)} mm over ${mm(sag.spanMm)} mm between battens`]),
      ].join("; "),
  );
  const sag = frame.ways[0]?.sag ?? null;
  const { board } = plan;
  return [
    ...lines,
    sag === null
      ? `sag is not reckoned: no stiffness is known here for a board of ${board.material}`
      : `sag: 5 w L^4 / (384 E I) for a strip on two supports (a simple beam of any mechanics handbook), times ${CREEP} for creep; ${mm(board.thickness)} mm ${board.material} of ${sag.densityKgPerM3} kg/m3 and ${CLOTH_KG_PER_M2} kg/m2 of cloth, E ${sag.modulusNPerMm2} N/mm2 (least of EN 622-5)`,
    `${frame.screws} screws, countersunk from the face, no more than ${plan.frame === "none" ? 0 : mm(plan.frame.screws.pitch)} mm apart; ${frame.hangers} hanging points on the edge battens`,
    ...boredLines(frame, plan.frame === "none" ? undefined : plan.frame.bored?.diameter),
    ...moveLines(frame),
  ];
}

const MOST_BORED = 12;

function boredLines({ bored }: FrameReport, reliefMm: number | undefined): string[] {
  if (reliefMm === undefined) return [];
  if (bored.length === 0) return ["no bright star wants a batten bored"];
  const told = bored
    .slice(0, MOST_BORED)
    .map(({ hole, name, panel }) => `${name === "" ? "" : `${name} at `}${hole} (panel ${panel})`);
  const more = bored.length - MOST_BORED;
  return [
    `${bored.length === 1 ? "1 hole goes" : `${bored.length} holes go`} through a batten: bore it there with a relief hole of ${mm(reliefMm)} mm before gluing: ${told.join(", ")}${more > 0 ? `, and ${more} more (boredHoles in schedule.json)` : ""}`,
  ];
}

function moveLines({ moves, brightest }: FrameReport): string[] {
  if (moves.length === 0) return [`no cross batten, moved, would free any of the ${brightest} brightest`];
  const told = moves.slice(0, MOST_MOVES).map(({ panel, batten, of, upright, atMm, byMm, frees, takes }) => {
    const way = upright ? (byMm > 0 ? "right" : "left") : byMm > 0 ? "up" : "down";
    return `${panel}: cross batten ${of > 1 ? `${batten} of ${of} ` : ""}(centre ${mm(atMm)} mm from the ${upright ? "left" : "lower"} edge, seen from the room) moved ${Math.abs(byMm)} mm ${way} frees ${frees.length - takes.length} of the ${brightest} brightest: ${named(frees)}${takes.length > 0 ? `, and takes ${named(takes)}` : ""}`;
  });
  return moves.length > MOST_MOVES
    ? [...told, `and ${moves.length - MOST_MOVES} more battens that would free fewer`]
    : told;
}
