import { dimensionText } from "./ceilingChains.ts";
import { keepOutDimensions, sizeText } from "./ceilingKeepOuts.ts";
import { arrowsFromMm, markAt, sizeMarkAt } from "./ceilingMarks.ts";
import { SHORTEST_SIDE_MM } from "./ceilingPanelWords.ts";
import type { CeilingScene } from "./ceilingScene.ts";
import { COLUMN_MM } from "./ceilingSheet.ts";
import type { SheetText } from "./sheetText.ts";
import { svgNumber as n } from "./svgText.ts";

/** A row of the legend: its height, and how it is drawn from its upper-left corner at a scale. */
export interface LegendRow {
  readonly heightMm: number;
  draw(xMm: number, yMm: number, denominator: number): string;
}

const ROW_MM = 2.7;
const NOTE_MM = 2.4;
const HEADING_MM = 3.2;
const STEP = 1.45;
/** From the left of a row: the middle of its mark, and where its words begin. */
const MARK_X = 4;
const WORDS_X = 10;
/** Keep-outs listed; of more the drawing itself tells. */
const MOST_KEEP_OUTS = 10;
const MOST_BORED = 60;
/** Capitals' half height, in parts of the size: from a row's middle down to its baseline. */
const HALF_CAPITAL = 0.36;

export function legendRows(scene: CeilingScene, text: SheetText): readonly LegendRow[] {
  const heading = (words: string): LegendRow => ({
    heightMm: HEADING_MM * 2.1,
    draw: (x, y) => text.at(words, x, y + HEADING_MM * 1.5, { sizeMm: HEADING_MM }),
  });
  const note = (words: string): LegendRow => {
    const lines = text.wrapped(words, NOTE_MM, COLUMN_MM);
    return {
      heightMm: lines.length * NOTE_MM * 1.3 + 0.9,
      draw: (x, y) =>
        lines
          .map((line, i) =>
            text.at(line, x, y + NOTE_MM * (1 + i * 1.3), { sizeMm: NOTE_MM, roomMm: COLUMN_MM }),
          )
          .join(""),
    };
  };
  const row = (
    mark: (x: number, y: number, denominator: number) => string,
    words: string | ((denominator: number) => string),
    count?: number | ((denominator: number) => number),
    heightMm = ROW_MM * STEP,
  ): LegendRow => ({
    heightMm,
    draw(x, y, denominator) {
      const middle = y + heightMm / 2;
      const base = middle + ROW_MM * HALF_CAPITAL;
      const countMm = count === undefined ? 0 : 13;
      return [
        mark(x + MARK_X, middle, denominator),
        text.at(typeof words === "string" ? words : words(denominator), x + WORDS_X, base, {
          sizeMm: ROW_MM,
          roomMm: COLUMN_MM - WORDS_X - countMm,
        }),
        ...(count === undefined
          ? []
          : [
              text.at(String(typeof count === "number" ? count : count(denominator)), x + COLUMN_MM, base, {
                sizeMm: ROW_MM,
                anchor: "end",
              }),
            ]),
      ].join("");
    },
  });
  const stroke = (style: string) => (x: number, y: number) =>
    `<path fill="none" ${style} d="M${n(x - 4)} ${n(y)}H${n(x + 4)}"/>`;

  const total = scene.holes.length;
  const arrows = (denominator: number) =>
    scene.holes.filter((hole) => hole.shiftMm >= arrowsFromMm(denominator)).length;
  const any = (of: (panel: CeilingScene["panels"][number]) => readonly unknown[]) =>
    scene.panels.reduce((count, panel) => count + of(panel).length, 0);
  const [battens, screws, hangers] = [
    any((panel) => panel.battens),
    any((panel) => panel.screws),
    any((panel) => panel.hangers),
  ];

  const rows: LegendRow[] = [heading("Holes, by fibre")];
  for (const { diameterMm, bitMm, count } of scene.sizes)
    rows.push(
      row(
        (x, y, k) => sizeMarkAt(diameterMm, x, y, k),
        `${diameterMm} mm fibre, bit ${bitMm} mm`,
        count,
        4.3,
      ),
    );
  rows.push(row(() => "", "all holes", total));

  rows.push(heading("Marks"));
  rows.push(
    row(
      (x, y) =>
        `<path fill="none" stroke="#111" stroke-width="0.18" d="M${n(x - 3.5)} ${n(y)}H${n(x + 3)}M${n(x + 2.25)} ${n(y - 0.34)}L${n(x + 3)} ${n(y)}L${n(x + 2.25)} ${n(y + 0.34)}"/>`,
      (k) => `shift from the true place, of ${arrowsFromMm(k)} mm or more`,
      arrows,
    ),
  );
  if (scene.bored.size > 0)
    rows.push(
      row(
        (x, y) => `<circle cx="${n(x)}" cy="${n(y)}" r="1.5" fill="none" stroke="#000" stroke-width="0.25"/>`,
        `batten bored: relief hole ${dimensionText(scene.reliefMm ?? 0)} mm behind`,
        scene.bored.size,
      ),
    );
  rows.push(row(stroke('stroke="#000" stroke-width="0.3"'), "panel", scene.panels.length));
  if (battens > 0)
    rows.push(
      row(
        (x, y) =>
          `<path fill="#f4ecdf" stroke="#7a6a50" stroke-width="0.18" stroke-dasharray="1.8 0.9" d="M${n(x - 4)} ${n(y - 1)}H${n(x + 4)}V${n(y + 1)}H${n(x - 4)}Z"/>`,
        "batten, behind the board",
      ),
    );
  if (screws > 0) rows.push(row((x, y, k) => markAt("screw", x, y, k), "screw into a batten", screws));
  if (hangers > 0) rows.push(row((x, y, k) => markAt("hanger", x, y, k), "hanging point", hangers));
  if (scene.keepOuts.length > 0)
    rows.push(
      row(
        (x, y) =>
          `<path fill="none" stroke="#555" stroke-width="0.15" d="M${n(x - 3)} ${n(y + 1.2)}l2.4 -2.4m0.15 2.4l2.4 -2.4m0.15 2.4l2.4 -2.4"/><path fill="none" stroke="#000" stroke-width="0.35" d="M${n(x - 4)} ${n(y - 1.2)}H${n(x + 4)}V${n(y + 1.2)}H${n(x - 4)}Z"/>`,
        "keep-out: no holes",
        scene.keepOuts.length,
      ),
    );
  if (scene.bored.size > 0) rows.push(...boredRows(scene, heading, note));
  rows.push(...keepOutRows(scene, heading, note), ...notes(scene, heading, note));
  return rows;
}

type Words = (words: string) => LegendRow;

function keepOutRows(scene: CeilingScene, heading: Words, note: Words): LegendRow[] {
  if (scene.keepOuts.length === 0) return [];
  const rest = scene.keepOuts.length - MOST_KEEP_OUTS;
  return [
    heading("Keep-outs"),
    ...scene.keepOuts.slice(0, MOST_KEEP_OUTS).map((keepOut) => {
      const places = keepOutDimensions(keepOut, scene).map(
        ({ mm, name }) => `${dimensionText(mm)} from ${name}`,
      );
      return note(
        `${keepOut.id} (${keepOut.kind}) ${sizeText(keepOut.shape)}: ${"at" in keepOut.shape ? "centre" : "edge"} ${places.join(", ")}.`,
      );
    }),
    ...(rest > 0 ? [note(`${rest} more: their figures stand on the drawing.`)] : []),
  ];
}

function boredRows({ bored }: CeilingScene, heading: Words, note: Words): LegendRow[] {
  const ids = [...bored];
  const rest = ids.length - MOST_BORED;
  return [
    heading("Bored battens"),
    note(`${ids.slice(0, MOST_BORED).join(", ")}${rest > 0 ? ` and ${rest} more: see schedule.json` : ""}.`),
  ];
}

function notes(scene: CeilingScene, heading: Words, note: Words): LegendRow[] {
  const kinds = new Set(scene.keepOuts.map(({ kind }) => kind));
  const open = (["grille", "hatch", "detector", "sprinkler"] as const)
    .filter((kind) => kinds.has(kind))
    .map((kind) => `${kind}s`.replace("hatchs", "hatches"));
  return [
    heading("Notes"),
    ...scene.build.map(note),
    note(
      "Symbols mark centres and are not to scale. Drill by the lists of holes: panels/<id>/holes-face.csv and holes-back.csv, not by this sheet.",
    ),
    ...(scene.panels.every((panel) => panel.isRectangle)
      ? []
      : [note(`Sides under ${SHORTEST_SIDE_MM} mm on this sheet carry no figure: see schedule.json.`)]),
    note(
      `Local codes and licensed trades decide${open.length > 0 ? `; keep ${open.join(", ")} clear and open` : ""}. Measure on site before cutting.`,
    ),
  ];
}
