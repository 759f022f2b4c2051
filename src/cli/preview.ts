import type { Command } from "commander";
import { wholeBetween } from "./options.ts";
import { formatOf, PICTURE_FORMATS } from "./pictureFormats.ts";
import { makeTerminal } from "./terminal.ts";
import { writeFileWhole } from "./writeFile.ts";

interface PreviewOptions {
  readonly output: string;
  readonly width: number;
  readonly labels?: boolean;
  readonly tint?: boolean;
  readonly figures?: boolean;
  readonly boundaries?: boolean;
  readonly force?: boolean;
  readonly quiet?: boolean;
}

export function addPreview(program: Command): void {
  program
    .command("preview")
    .description("draw the ceiling as it looks from below at night (PNG, WebP, AVIF or SVG)")
    .argument("<plan>", "plan file, or - for standard input")
    .requiredOption("-o, --output <file>", "picture to write; its extension chooses the format")
    .option("--width <px>", "width of the picture in pixels", wholeBetween(16, 8192, "pixels"), 1600)
    .option("--labels", "names of the brightest, compass letters, walls, seams and panel ids")
    .option("--tint", "colour each star by its B-V; on a ceiling this needs coloured sources")
    .option("--figures", "faint lines that join each constellation's bright stars")
    .option("--boundaries", "the constellations' IAU boundaries, broken lines")
    .option("--force", "replace a file that Lacunar did not make")
    .action(async (path: string, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<PreviewOptions>();
      const format = formatOf(
        options.output,
        PICTURE_FORMATS,
        "not a picture format known here; end the name in .png, .webp, .avif or .svg",
      );
      const terminal = makeTerminal(options.quiet === true);
      const [{ scheduled, loadBoundaries }, { drawPreview, previewLines }] = await Promise.all([
        import("./core.ts"),
        import("./drawPreview.ts"),
      ]);
      const { schedule, planned, sky } = scheduled(path);
      for (const warning of schedule.warnings) terminal.warn(warning);
      if (options.tint) {
        terminal.warn(
          "--tint shows the stars' own colours; one light source gives one colour, so a ceiling like this needs coloured sources",
        );
      }
      const picture = await terminal.progress("drawing the preview", () =>
        drawPreview(
          schedule,
          planned.field.view,
          format,
          {
            widthPx: options.width,
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
