import type { CeilingScene } from "./ceilingScene.ts";
import type { PageBox } from "./proofSheetPage.ts";
import type { SheetText } from "./sheetText.ts";
import { svgNumber as n } from "./svgText.ts";

const TITLE_MM = 4.6;
const BELOW_MM = 4.4;
const LINE_MM = 2.5;
const STEP_MM = 3.7;
const PAD_MM = 2.5;
const NORTH_MM = 9;
/** Longest that the scale bar may get. */
const BAR_MM = 72;

export const titleHeightMm = 52;

/** What ISO 7200 asks of a title block as far as a ceiling has it: at the lower right, what, where, when, which way, scale. */
export function titleBlock(
  scene: CeilingScene,
  at: PageBox,
  denominator: number,
  sheet: { readonly widthMm: number; readonly heightMm: number },
  text: SheetText,
): string {
  const left = at.xMm + PAD_MM;
  const roomMm = at.widthMm - 2 * PAD_MM;
  const top = at.yMm + at.heightMm - titleHeightMm;
  let y = top + PAD_MM + TITLE_MM * 0.75;
  const parts = [
    `<path fill="#fff" stroke="#000" stroke-width="0.35" d="M${n(at.xMm)} ${n(top)}h${n(at.widthMm)}v${n(titleHeightMm)}h${n(-at.widthMm)}Z"/>`,
    ...titleLines(scene.title, roomMm, text).map(({ words, sizeMm, downMm }) =>
      text.at(words, left, y + downMm, { sizeMm, roomMm }),
    ),
  ];
  y += 6.4;
  const northRoomMm = scene.northward ? 2 * NORTH_MM + 3 : 0;
  parts.push(text.at("SEEN FROM BELOW", left, y, { sizeMm: BELOW_MM, roomMm: roomMm - northRoomMm }));
  y += 0.8;
  const line = (words: string, narrower = northRoomMm) => {
    y += STEP_MM;
    parts.push(text.at(words, left, y, { sizeMm: LINE_MM, roomMm: roomMm - narrower }));
  };
  line("working drawing of the ceiling");
  line(scene.place);
  const [civil, utc] = scene.moment.split(" (");
  line(civil!);
  line(utc!.replace(")", ""));
  y += 1;
  if (scene.facing) line(scene.facing, 0);
  else line("letters at the walls: where the sky's directions leave the ceiling", 0);
  line(`Scale 1 : ${denominator} on A3 (${sheet.widthMm} × ${sheet.heightMm} mm). All measures in mm.`, 0);
  parts.push(scaleBar(left, top + titleHeightMm - 7.2, denominator, text));
  if (scene.northward)
    parts.push(northArrow(at.xMm + at.widthMm - PAD_MM - NORTH_MM - 0.5, top + 19.5, scene.northward, text));
  return `<g id="title-block">\n${parts.join("\n")}\n</g>`;
}

/** One line, or two smaller ones where one would get much smaller. */
function titleLines(title: string, roomMm: number, text: SheetText) {
  if (text.widthMm(title, TITLE_MM) <= 1.3 * roomMm) return [{ words: title, sizeMm: TITLE_MM, downMm: 0 }];
  const sizeMm = 2.7;
  const [first, ...rest] = text.wrapped(title, sizeMm, roomMm);
  return [
    { words: first!, sizeMm, downMm: -1.5 },
    ...(rest.length > 0 ? [{ words: rest.join(" "), sizeMm, downMm: 1.9 }] : []),
  ];
}

/** Ten steps of a round length, the first five told apart: holds on a print of any size. */
function scaleBar(xMm: number, yMm: number, denominator: number, text: SheetText): string {
  let fullMm = 1;
  for (const step of [1, 2, 5].flatMap((one) => [0, 1, 2, 3, 4, 5, 6].map((power) => one * 10 ** power)))
    if (step / denominator <= BAR_MM && step > fullMm) fullMm = step;
  const paperMm = fullMm / denominator;
  const step = paperMm / 10;
  const dark = [0, 2, 4, 6, 8].map((i) => `M${n(xMm + i * step)} ${n(yMm)}h${n(step)}v1.4h${n(-step)}Z`);
  return [
    `<g id="scale-bar" data-mm="${fullMm}">`,
    `<path fill="#000" d="${dark.join("")}"/>`,
    `<path fill="none" stroke="#000" stroke-width="0.18" d="M${n(xMm)} ${n(yMm)}h${n(paperMm)}v1.4h${n(-paperMm)}Z"/>`,
    ...[0, 0.5, 1].map((part) =>
      text.at(`${fullMm * part}${part === 1 ? " mm" : ""}`, xMm + part * paperMm, yMm + 4.4, {
        sizeMm: 2.3,
        anchor: part === 0 ? "start" : part === 1 ? "end" : "middle",
      }),
    ),
    "</g>",
  ].join("\n");
}

/** Pointing to north as the sky lies on this ceiling. */
function northArrow(
  x: number,
  y: number,
  northward: { readonly xMm: number; readonly yMm: number },
  text: SheetText,
): string {
  // Paper has y down.
  const [ux, uy] = [northward.xMm, -northward.yMm];
  const r = NORTH_MM - 3.4;
  const point = (along: number, across: number) =>
    `${n(x + along * ux - across * uy)} ${n(y + along * uy + across * ux)}`;
  return [
    '<g id="north">',
    `<circle cx="${n(x)}" cy="${n(y)}" r="${n(r)}" fill="none" stroke="#000" stroke-width="0.18"/>`,
    `<path fill="#000" d="M${point(r, 0)}L${point(-r * 0.7, r * 0.45)}L${point(-r * 0.35, 0)}Z"/>`,
    `<path fill="#fff" stroke="#000" stroke-width="0.18" d="M${point(r, 0)}L${point(-r * 0.7, -r * 0.45)}L${point(-r * 0.35, 0)}Z"/>`,
    text.at("N", x + ux * (r + 2.1), y + uy * (r + 2.1) + 1.25, { sizeMm: 3.5, anchor: "middle" }),
    "</g>",
  ].join("\n");
}
