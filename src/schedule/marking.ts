import { type Finding, InputError, UnbuildableError } from "../plan/errors.ts";
import { sameGroup } from "../plan/markingProblems.ts";
import type { KeystonePlan, Plan } from "../plan/plan.ts";
import { type FourPoints, type Point, through } from "../projection/homography.ts";
import { boardAsCut, withTrueCorners } from "./asCut.ts";
import { layOutBoards } from "./markingBoards.ts";
import { checkMarks } from "./markingChecks.ts";
import { outerCorners, plainFrame, warpedFrame } from "./markingFrame.ts";
import { coarseFinding, groupFinding } from "./markingGroups.ts";
import type { MarkedPanel, MarkingPicture } from "./markingTypes.ts";
import type { Hole, PanelRecord, Schedule } from "./types.ts";

/**
 * The pictures for a projector that a plan asks for: each panel, then each group.
 * @param onlyMm show the holes of this fibre alone
 * @throws InputError for a fibre that the plan does not have; UnbuildableError for what `markingFindings` tells
 */
export function markingPictures(schedule: Schedule, onlyMm: number | null = null): MarkingPicture[] {
  refuseOtherSize(schedule.plan, onlyMm);
  const { framed, findings } = framedPictures(schedule, onlyMm);
  if (findings.length > 0) throw new UnbuildableError(findings);
  return framed.map(({ picture, measured }) => ({ ...picture, checks: checkMarks(picture, measured) }));
}

/**
 * Why pictures for a projector are refused: groups that do not hang together, corners that no projector can see, and pixels
 * coarser than the plan accepts. None when `markingPictures` will do.
 */
export const markingFindings = (schedule: Schedule): readonly Finding[] =>
  framedPictures(schedule, null).findings;

type FramedPicture = Omit<MarkingPicture, "checks">;

interface Framed {
  readonly picture: FramedPicture;
  /** Where check marks were found. */
  readonly measured: NonNullable<KeystonePlan["measured"]> | null;
}

function framedPictures({ plan, panels, holes }: Schedule, onlyMm: number | null) {
  const byId = new Map(panels.map((panel) => [panel.id, withTrueCorners(boardAsCut(panel, plan))]));
  const holesOf = new Map(panels.map(({ id }) => [id, [] as Hole[]]));
  for (const hole of holes) holesOf.get(hole.panel)!.push(hole);
  const findings: Finding[] = [];
  const framed = [...panels.map(({ id }) => [id]), ...plan.marking.groups].flatMap((ids) => {
    const together = ids.map((id) => byId.get(id)!);
    const apart = groupFinding(together);
    if (apart !== null) findings.push(apart);
    const made = apart ?? pictureOf(together, holesOf, plan, onlyMm);
    if ("code" in made) {
      if (apart === null) findings.push(made);
      return [];
    }
    const coarse = coarseFinding(made.picture, together, plan.marking);
    if (coarse !== null) findings.push(coarse);
    return [made];
  });
  return { framed, findings };
}

function pictureOf(
  together: readonly PanelRecord[],
  holesOf: ReadonlyMap<string, readonly Hole[]>,
  plan: Plan,
  onlyMm: number | null,
): Framed | Finding {
  const id = together.map((panel) => panel.id).join("+");
  const { boards, widthMm, lengthMm, points } = layOutBoards(together);
  const panels = boards.map(({ board, xMm, yMm }): MarkedPanel => {
    const allHoles = holesOf.get(board.id)!;
    return {
      board,
      xMm,
      yMm,
      holes: onlyMm === null ? allHoles : allHoles.filter(({ diameterMm }) => diameterMm === onlyMm),
      allHoles,
    };
  });
  const [widthPx, heightPx] = plan.marking.pixels;
  const cornersMm = outerCorners(points, widthMm, lengthMm);
  const keystone = plan.marking.keystone.find(
    (each) => sameGroup(each.panels) === sameGroup(together.map((panel) => panel.id)),
  );
  const frame = keystone === undefined ? null : squared(id, keystone, cornersMm, points, plan.marking.pixels);
  if (frame !== null && "code" in frame) return frame;
  const plain = plainFrame(widthMm, lengthMm, widthPx, heightPx);
  const {
    toPixels,
    finestMmPerPx = plain.mmPerPx,
    coarsestMmPerPx = plain.mmPerPx,
  } = frame ?? { toPixels: plain.toPixels };
  const picture = {
    id,
    widthPx,
    heightPx,
    panels,
    widthMm,
    lengthMm,
    cornersMm,
    toPixels,
    warped: frame !== null,
    finestMmPerPx,
    coarsestMmPerPx,
    onlyMm,
  };
  return { picture, measured: keystone?.measured ?? null };
}

/** The frame that measured corners give, or why they cannot be. */
function squared(
  id: string,
  { corners: { lowerLeft, lowerRight, upperRight, upperLeft } }: KeystonePlan,
  cornersMm: FourPoints | null,
  points: readonly Point[],
  [widthPx, heightPx]: readonly [number, number],
): NonNullable<ReturnType<typeof warpedFrame>> | Finding {
  const fault = (code: string, message: string): Finding => ({ code, message: `marking ${id}: ${message}` });
  if (cornersMm === null)
    return fault(
      "marking-without-corners",
      "its boards have no four corners to square a picture on; take its entry out of marking.keystone and set the projector square to the board",
    );
  const frame = warpedFrame(cornersMm, [lowerLeft, lowerRight, upperRight, upperLeft], points);
  if (frame === null)
    return fault(
      "marking-beyond-horizon",
      "with these corners a part of the board lies beyond what the projector can see; measure the corners again, in the order lowerLeft, lowerRight, upperRight, upperLeft",
    );
  const beyond = points.find((point) => {
    const [x, y] = through(frame.toPixels, point);
    return x < 0 || y < 0 || x > widthPx || y > heightPx;
  });
  if (beyond === undefined) return frame;
  return fault(
    "marking-beyond-picture",
    `with these corners the board's corner at x ${beyond[0]}, y ${beyond[1]} mm falls outside the picture of ${widthPx} x ${heightPx} pixels; move the projector until the whole board is lit`,
  );
}

function refuseOtherSize({ fibre }: Plan, onlyMm: number | null): void {
  const owned = Object.keys(fibre.bundles.strands).filter((key) => fibre.bundles.strands[key]! > 0);
  if (onlyMm !== null && !owned.includes(`${onlyMm}mm`))
    throw new InputError(`--only: the plan has no fibre of ${onlyMm} mm; write one of ${owned.join(", ")}`);
}
