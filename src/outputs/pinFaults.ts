import { readGcode, type Stroke } from "./machine/readGcode.ts";
import { SAME_MM } from "./sameHoles.ts";

/** A program read back, with the bit of each stroke. */
interface Hit extends Stroke {
  readonly bitMm: number;
}

type Files = ReadonlyMap<string, string>;

/** Which set-up a program says that it runs in: its own number, but for datum holes, drilled before the board moves. */
const setUpOf = (text: string): number => Number(/\bSet-up (\d+) of \d+/.exec(text)?.[1] ?? "1");

/**
 * Follows a board through its set-ups as the files alone tell it: in none of them is anything drilled where one of its pins stands, and
 * each pin stands in a hole of its bit that an earlier set-up drilled through, once.
 * @param bitOf bit of a stroke in a file, mm
 * @param throughMm from this depth on a stroke goes through the board
 * @returns a sentence a fault
 */
export function pinFaults(
  files: Files,
  bitOf: (name: string, tool: number | null) => number,
  throughMm: number,
): string[] {
  const faults: string[] = [];
  const hits = (pattern: RegExp): (Hit & { readonly name: string; readonly setUp: number })[] =>
    [...files]
      .filter(([name]) => pattern.test(name))
      .flatMap(([name, text]) =>
        readGcode(text).map((stroke) => ({
          ...stroke,
          name,
          bitMm: bitOf(name, stroke.tool),
          setUp: setUpOf(text),
        })),
      );
  const apart = (a: Hit, b: Hit) => Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm);
  const follow = (drill: RegExp, pins: RegExp) => {
    const drilled = hits(drill);
    const through = drilled.filter(({ depthMm }) => depthMm >= throughMm - SAME_MM);
    for (const pin of hits(pins)) {
      const at = `${pin.xMm}, ${pin.yMm}`;
      const hit = drilled.find(
        (one) => one.setUp === pin.setUp && apart(one, pin) < (one.bitMm + pin.bitMm) / 2 - SAME_MM,
      );
      if (hit) faults.push(`${hit.name}: drills at ${at}, where a pin of set-up ${pin.setUp} stands`);
      const holes = through.filter((one) => apart(one, pin) <= SAME_MM);
      const fits = holes.filter((one) => one.setUp < pin.setUp && Math.abs(one.bitMm - pin.bitMm) < SAME_MM);
      if (fits.length === 0)
        faults.push(`${pin.name}: the pin at ${at} has no hole of an earlier set-up to stand in`);
      else if (holes.length > 1)
        faults.push(`${pin.name}: the hole at ${at} is drilled ${holes.length} times`);
    }
  };
  follow(/^(drill|datum)(-\d+)?\.nc$/, /^pins-\d+\.nc$/);
  follow(/^drill-pilot(-\d+)?\.nc$/, /^pins-pilot-\d+\.nc$/);
  follow(/^(drill|datum)-(\d+-)?\d+\.\d\dmm\.nc$/, /^pins-\d+-\d+\.\d\dmm\.nc$/);
  follow(/^drill-pilot-(\d+-)?\d+\.\d\dmm\.nc$/, /^pins-pilot-\d+-\d+\.\d\dmm\.nc$/);
  return faults;
}
