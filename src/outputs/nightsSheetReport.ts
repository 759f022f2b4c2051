import { placeWords } from "../plan/placeWords.ts";
import { yamlLine } from "../plan/valueText.ts";
import type { ProofSheet, SheetChoice } from "../schedule/nightsSheet.ts";
import type { KeyValue } from "../schedule/nightsSheetSet.ts";
import { DARKNESS_WORDS, type ViewWords } from "../schedule/nightsSheetWords.ts";

/** One word for a POSIX shell: as it is where that is safe, else in single quotes. */
const shellWord = (text: string): string =>
  /^[A-Za-z0-9_@%+=:,./][A-Za-z0-9_@%+=:,./-]*$/.test(text) ? text : `'${text.replaceAll("'", `'\\''`)}'`;

/** A path that starts with a dash would be read as an option. */
const asArgument = (path: string): string => shellWord(path.startsWith("-") ? `./${path}` : path);

/** The command that writes a choice into its plan; null for the plan's own, which is written already. */
export function setCommand(planPath: string, set: readonly KeyValue[]): string | null {
  if (set.length === 0) return null;
  const pairs = set.flatMap(({ key, value }) => [key, shellWord(yamlLine(value))]);
  return ["lacunar", "set", asArgument(planPath), ...pairs].join(" ");
}

export interface SheetFiles {
  /** As the person named it; what a command can write to. */
  readonly plan: string;
  readonly picture: string;
}

/** The choices as data. */
export function proofSheetJson(sheet: ProofSheet, files: SheetFiles): string {
  const { over, plan, clock, day, words, choices, notices } = sheet;
  const data = {
    over,
    title: plan.title,
    place: plan.place,
    clock,
    day,
    words,
    picture: files.picture,
    choices: choices.map((choice) => choiceData(choice, files.plan)),
    notices,
  };
  return `${JSON.stringify(data, null, 2)}\n`;
}

function choiceData(choice: SheetChoice, planPath: string) {
  const { number, own, plan, time, sunAltDeg, darkness, words, set, made } = choice;
  const base = {
    number,
    own,
    moment: plan.moment,
    ...time,
    day: choice.day,
    sunAltDeg,
    darkness,
    view: plan.view,
    words: viewText(words),
    set,
    command: "why" in made ? null : setCommand(planPath, set),
  };
  return "why" in made
    ? { ...base, why: made.why }
    : { ...base, ...made.sky, warnings: made.schedule.warnings };
}

/** The numbered choices in words, each with the command that writes it into the plan. */
export function proofSheetReport(sheet: ProofSheet, files: SheetFiles): string {
  const { plan, day, words, choices, over } = sheet;
  const where = placeWords(plan.place);
  const lines = [
    `Lacunar proof sheet: ${files.picture}`,
    `${where}, ${over === "times" ? `the night of ${day}` : day}`,
    ...words,
    "Choose a number; its command writes it into the plan:",
  ];
  for (const choice of choices) {
    const number = `${choice.number}.`.padEnd(4);
    lines.push(`${number}${choiceWords(choice, over)}`);
    // What cannot be is no choice.
    if ("why" in choice.made && !choice.own) continue;
    lines.push(`    ${setCommand(files.plan, choice.set) ?? "the plan as it is"}`);
  }
  return `${lines.join("\n")}\n`;
}

function choiceWords({ time, words, darkness, made }: SheetChoice, over: ProofSheet["over"]): string {
  const what = over === "times" ? `${spaced(time.civil)}, ${DARKNESS_WORDS[darkness]}` : viewText(words);
  if ("why" in made) return `${what}: cannot be: ${made.why.replaceAll("\n", "; ")}`;
  const { limitingMag, holes, stars, planets } = made.sky;
  const reach = limitingMag === null ? "no holes" : `${holes} holes to magnitude ${limitingMag.toFixed(2)}`;
  const named = [...planets.map(({ name }) => name), ...stars.slice(0, 4)];
  return `${what}: ${reach}${named.length > 0 ? `; ${named.join(", ")}` : ""}`;
}

const viewText = ({ view, details }: ViewWords): string =>
  details.length === 0 ? view : `${view} (${details.join(", ")})`;

/** `1998-07-11 21:15 -04:00`; seconds are told only where there are any. */
const spaced = (civil: string): string =>
  civil.replace(
    /^(\S+)T(\d\d:\d\d)(:\d\d)(\S*)$/,
    (_, date, time, seconds, offset) => `${date} ${time}${seconds === ":00" ? "" : seconds} ${offset}`,
  );
