import type { Command } from "commander";
import { InputError } from "../plan/errors.ts";
import { wholeBetween } from "./options.ts";
import { formatOf, PICTURE_FORMATS } from "./pictureFormats.ts";
import { makeTerminal } from "./terminal.ts";
import { writeFileWhole } from "./writeFile.ts";

interface PreviewOptions {
  readonly output: string;
  readonly width?: number;
  readonly labels?: boolean;
  readonly tint?: boolean;
  readonly figures?: boolean;
  readonly boundaries?: boolean;
  readonly drawing?: boolean;
  readonly force?: boolean;
  readonly quiet?: boolean;
}

const PREVIEW_WIDTH_PX = 1600;
/** The longer side of A3, 420 mm, at 300 dots an inch. */
const DRAWING_WIDTH_PX = 4961;

export function addPreview(program: Command): void {
  program
    .command("preview")
    .description("draw the ceiling as it looks from below at night (PNG, WebP, AVIF or SVG)")
    .argument("<plan>", "plan file, or - for standard input")
    .requiredOption("-o, --output <file>", "picture to write; its extension chooses the format")
    .option(
      "--width <px>",
      "width of the picture in pixels (1600; with --drawing 4961: A3 at 300 dots an inch)",
      wholeBetween(16, 8192, "pixels"),
    )
    .option("--labels", "names of the brightest, compass letters, walls, seams and panel ids")
    .option("--tint", "colour each star by its B-V; on a ceiling this needs coloured sources")
    .option("--figures", "faint lines that join each constellation's bright stars")
    .option("--boundaries", "the constellations' IAU boundaries, broken lines")
    .option("--drawing", "the working drawing on A3 instead, with dimensions, as in ceiling.svg of make")
    .option("--force", "replace a file that Lacunar did not make")
    .action(async (path: string, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<PreviewOptions>();
      const format = formatOf(
        options.output,
        PICTURE_FORMATS,
        "not a picture format known here; end the name in .png, .webp, .avif or .svg",
      );
      if (options.drawing) refuseBesideDrawing(options);
      const terminal = makeTerminal(options.quiet === true);
      const [{ scheduled, loadBoundaries }, { drawPreview, drawWorkingDrawing, previewLines }] =
        await Promise.all([import("./core.ts"), import("./drawPreview.ts")]);
      const { schedule, planned, sky } = scheduled(path);
      for (const warning of schedule.warnings) terminal.warn(warning);
      if (options.tint) {
        terminal.warn(
          "--tint shows the stars' own colours; one light source gives one colour, so a ceiling like this needs coloured sources",
        );
      }
      if (options.drawing) {
        const widthPx = options.width ?? DRAWING_WIDTH_PX;
        const drawing = await terminal.progress("drawing the ceiling", () =>
          drawWorkingDrawing(schedule, planned.field.view, format, widthPx, terminal),
        );
        writeFileWhole(options.output, drawing, options.force === true);
        return;
      }
      const picture = await terminal.progress("drawing the preview", () =>
        drawPreview(
          schedule,
          planned.field.view,
          format,
          {
            widthPx: options.width ?? PREVIEW_WIDTH_PX,
            labels: options.labels === true,
            tint: options.tint === true,
            ...(options.figures || options.boundaries
              ? {
                  lines: previewLines(schedule, planned, sky, {
                    figures: options.figures === true,
                    ...(options.boundaries ? { boundaries: loadBoundaries() } : {}),
                  }),
                }
              : {}),
          },
          terminal,
        ),
      );
      writeFileWhole(options.output, picture, options.force === true);
    });
}

/** These are about the sky at night; the drawing shows none of it, and always has its labels. */
function refuseBesideDrawing(options: PreviewOptions): void {
  for (const name of ["labels", "tint", "figures", "boundaries"] as const)
    if (options[name]) {
      throw new InputError(
        `--drawing and --${name}: the working drawing is no picture of the night; leave one of them out`,
      );
    }
}
