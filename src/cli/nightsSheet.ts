import { proofSheetJson, proofSheetReport } from "../outputs/nightsSheetReport.ts";
import { InputError } from "../plan/errors.ts";
import {
  drawProofSheet,
  encodePreview,
  loadFont,
  type PictureFormat,
  sheetSceneOf,
} from "../render/index.ts";
import { proofSheet } from "../schedule/nightsSheet.ts";
import { fontBytes, loadSkyData } from "./dataFiles.ts";
import { warnOfMissing } from "./drawPreview.ts";
import { type EmitOptions, emit } from "./emit.ts";
import { formatOf, RASTER_FORMATS } from "./pictureFormats.ts";
import { locating, readPlanFile } from "./planFile.ts";
import { makeTerminal } from "./terminal.ts";
import { writeFileWhole } from "./writeFile.ts";

export interface SheetOptions extends EmitOptions {
  readonly sheet?: string;
  readonly kinds?: boolean;
  readonly json?: boolean;
  readonly quiet?: boolean;
  /** Other questions of the command, which a sheet does not answer. */
  readonly around?: unknown;
  readonly wall?: unknown;
  readonly date?: unknown;
}

/** `lacunar nights PLAN --sheet F`: the sheet as a picture, the choices as words or data. */
export async function nightsSheet(path: string, options: SheetOptions): Promise<void> {
  const { picture, format } = checked(options);
  const terminal = makeTerminal(options.quiet === true);
  const { plan, locate } = readPlanFile(path);
  const sheet = locating(locate, () =>
    proofSheet(plan, loadSkyData(), options.kinds === true ? "kinds" : "times"),
  );
  for (const notice of sheet.notices) terminal.warn(notice);
  const drawn = drawProofSheet(sheetSceneOf(sheet), loadFont(fontBytes()));
  warnOfMissing(drawn.missingCharacters, terminal);
  const bytes = await terminal.progress("drawing the sheet", () =>
    encodePreview(drawn.raster, format, drawn.svg),
  );
  writeFileWhole(picture, bytes, options.force === true);
  const files = { plan: path === "-" ? "PLAN" : path, picture };
  await emit(options.json ? proofSheetJson(sheet, files) : proofSheetReport(sheet, files), options);
}

function checked(options: SheetOptions): { picture: string; format: PictureFormat } {
  const { sheet, output } = options;
  if (sheet === undefined)
    throw new InputError(
      "--kinds says what a proof sheet shows: name its file too, as in --sheet sheet.png --kinds",
    );
  const others = (["around", "wall", "date"] as const).filter((name) => options[name] !== undefined);
  if (others.length > 0)
    throw new InputError(
      `--sheet goes without ${others.map((name) => `--${name}`).join(" and ")}: ask for one at a time`,
    );
  const format = formatOf(
    sheet,
    RASTER_FORMATS,
    "not a format of proof sheets; end the name in .png, .webp or .avif",
  );
  if (output === sheet)
    throw new InputError(`${sheet}: --sheet and --output name the same file; give each its own`);
  return { picture: sheet, format };
}
