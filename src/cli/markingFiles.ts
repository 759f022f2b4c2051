import { drawMarking } from "../outputs/marking/drawMarking.ts";
import { lensWords } from "../outputs/marking/lensWords.ts";
import { drawPixelRuler } from "../outputs/marking/pixelRuler.ts";
import { encodePreview, type Font, type PreviewRaster } from "../render/index.ts";
import { markingPictures } from "../schedule/marking.ts";
import type { MarkingPicture } from "../schedule/markingTypes.ts";
import type { Schedule } from "../schedule/types.ts";
import { warnOfMissing } from "./drawPreview.ts";
import type { Terminal } from "./terminal.ts";

/** The pictures that the plan asks for, or its refusal; what measured check marks tell is said at once. */
export function refusedOrPictures(
  schedule: Schedule,
  onlyMm: number | null,
  terminal: Terminal,
): readonly MarkingPicture[] {
  const pictures = markingPictures(schedule, onlyMm);
  for (const { text, warn } of lensWords(pictures)) {
    if (warn) terminal.warn(text);
    else terminal.say(text);
  }
  return pictures;
}

/** 25 MB of pixels each: more at once would only wait for the cores. */
const MOST_AT_ONCE = 3;

/** marking/<id>.png of each picture. The encoder works beside the drawing of the next. */
export async function markingFiles(
  pictures: readonly MarkingPicture[],
  schedule: Schedule,
  font: Font,
  terminal: Terminal,
): Promise<ReadonlyMap<string, Uint8Array>> {
  const files = new Map<string, Uint8Array>();
  const missing = new Set<string>();
  const encoding: Promise<void>[] = [];
  const encode = async (path: string, raster: PreviewRaster) => {
    files.set(path, await encodePreview(raster, "png"));
  };
  for (const picture of pictures) {
    if (encoding.length >= MOST_AT_ONCE) await encoding.shift();
    const { raster, missingCharacters } = drawMarking(picture, schedule, font);
    for (const character of missingCharacters) missing.add(character);
    encoding.push(encode(`marking/${picture.id}.png`, raster));
    await Promise.resolve();
  }
  await Promise.all(encoding);
  if (schedule.plan.marking.pixelRuler)
    await encode("marking/pixel-ruler.png", drawPixelRuler(schedule.plan.marking, font));
  warnOfMissing([...missing], terminal);
  // In the order of the plan, whichever was ready first.
  return new Map([...files].sort(([a], [b]) => (a < b ? -1 : 1)));
}
