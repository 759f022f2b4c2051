import { statSync } from "node:fs";
import type { Command } from "commander";
import { InputError, UnbuildableError } from "../plan/errors.ts";
import type { ChangedKey, SetPlan, SetRequest } from "../plan/setKeys.ts";
import { makeTerminal, writeStdout } from "./terminal.ts";
import { replaceFile } from "./writeFile.ts";

interface SetOptions {
  readonly unset?: readonly string[];
  readonly quiet?: boolean;
}

export function addSet(program: Command): void {
  program
    .command("set")
    .description("change keys of a plan file; its comments and layout stay")
    .argument("<plan>", "plan file, or - for standard input (the changed plan then goes to standard output)")
    .argument("[pairs...]", "a key and its value in YAML, as often as needed: view.aim '{star: Vega}'")
    .option(
      "--unset <key>",
      "take a key out, so that its default holds again; may be repeated",
      (key: string, keys: readonly string[] = []) => [...keys, key],
    )
    .allowUnknownOption() // a value may begin with a minus: place.latitude -33.4, panels[0].x -5mm
    .addHelpText(
      "after",
      `
Examples:
  lacunar set mine.yaml moment 1998-07-11T21:15
  lacunar set mine.yaml view.aim '{star: Vega}' view.roll 5
  lacunar set mine.yaml view '{kind: chart, span: 140}'
  lacunar set mine.yaml panels[0].width 800mm fibre.bundles.strands.0.5mm 75
  lacunar set mine.yaml --unset show.extinction`,
    )
    .action(async (path: string, words: readonly string[], _options: unknown, command: Command) => {
      const { unset = [], quiet } = command.optsWithGlobals<SetOptions>();
      const request: SetRequest = { pairs: pairsOf(words, unset.length > 0), unset };
      if (path !== "-") refuseOddFiles(path);
      const [{ decoded, lookUpPlace, nameOf, planBytes }, { setKeys }] = await Promise.all([
        import("./planFile.ts"),
        import("../plan/setKeys.ts"),
      ]);
      const bytes = planBytes(path);
      const terminal = makeTerminal(quiet === true);
      const name = nameOf(path);
      const set = await orUntouched(name, async () => {
        const done = setKeys(decoded(path, bytes), name, request, lookUpPlace);
        await checkSky(done);
        return done;
      });

      const mark = bytes.subarray(0, 3).equals(BYTE_ORDER_MARK) ? BYTE_ORDER_MARK : Buffer.of();
      const next = Buffer.concat([mark, Buffer.from(set.text)]);
      if (path === "-") await writeStdout(next);
      else if (!next.equals(bytes)) replaceFile(path, next, bytes);
      for (const notice of set.notices) terminal.warn(notice);
      const { shownValue } = await import("../plan/valueText.ts");
      terminal.say(`${name}: ${told(set.changed, shownValue)}`);
    });
}

const BYTE_ORDER_MARK = Buffer.of(0xef, 0xbb, 0xbf);

function pairsOf(words: readonly string[], mayBeEmpty: boolean): readonly (readonly [string, string])[] {
  const option = words.find((word) => /^--[a-z]/.test(word));
  if (option !== undefined)
    throw new InputError(`unknown option ${JSON.stringify(option)}; see lacunar set --help`);
  if (words.length === 0 && !mayBeEmpty)
    throw new InputError("name a key and its value, as in: lacunar set mine.yaml view.aim '{star: Vega}'");
  if (words.length % 2 === 1) {
    const last = words[words.length - 1];
    throw new InputError(
      `${last}: has no value after it; keys and values come in pairs, and a value with spaces in it needs quotes`,
    );
  }
  return words.flatMap((word, i) => (i % 2 === 0 ? [[word, words[i + 1]!] as const] : []));
}

/** What is no file cannot be replaced: a pipe or a device is refused before it is read. */
function refuseOddFiles(path: string): void {
  const kind = statSync(path, { throwIfNoEntry: false });
  if (kind !== undefined && !kind.isFile() && !kind.isDirectory())
    throw new InputError(
      `${path}: it is no ordinary file; to change a plan on its way through, give - in its place`,
    );
}

/** What only the sky can judge: moment, zone, aim. A sky that leaves the ceiling empty is for `check` to tell. */
async function checkSky({ plan, locate }: SetPlan): Promise<void> {
  const { loadSkyData, locating, planSky } = await import("./core.ts");
  try {
    locating(locate, () => planSky(plan, loadSkyData()));
  } catch (error) {
    if (!(error instanceof UnbuildableError)) throw error;
  }
}

async function orUntouched<T>(name: string, act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw new InputError([...error.message.split("\n"), `${name}: nothing was changed`], { cause: error });
  }
}

function told(changed: readonly ChangedKey[], shown: (data: unknown) => string): string {
  if (changed.length === 0) return "says so already; nothing was changed";
  return changed.map(({ key, from, to }) => `${key} from ${shown(from)} to ${shown(to)}`).join("; ");
}
