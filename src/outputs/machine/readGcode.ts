/** A stroke into the board as a controller would make it. */
export interface Stroke {
  readonly xMm: number;
  readonly yMm: number;
  /** Where it ends, below Z0: positive. */
  readonly depthMm: number;
  /** Null where the file changes no tool. */
  readonly tool: number | null;
  readonly spindleOn: boolean;
}

/**
 * Reads a program back: a small interpreter of what RS-274 says of G0, G1, G21, G80, G81, G83, G90, T, M3, M5, M6, M30. Strokes
 * of one hole (pecks) are one, with its deepest.
 * @throws Error for words that it does not know, moves across the board below Z0, and a program that does not end
 */
export function readGcode(text: string): Stroke[] {
  const strokes: Stroke[] = [];
  let [x, y, z] = [Number.NaN, Number.NaN, Number.NaN];
  let [tool, next]: (number | null)[] = [null, null];
  let [cycle, sticky] = ["", Number.NaN];
  let [motion, spindle, ended] = ["G0", false, false];
  const stroke = (depth: number) => {
    const last = strokes.at(-1);
    if (last !== undefined && last.xMm === x && last.yMm === y && cycle === "" && last.tool === tool)
      strokes[strokes.length - 1] = { ...last, depthMm: Math.max(last.depthMm, depth) };
    else strokes.push({ xMm: x, yMm: y, depthMm: depth, tool: tool!, spindleOn: spindle });
  };
  for (const line of text.split("\n")) {
    const code = line.replace(/\([^)]*\)/g, "").trim();
    if (code === "" || code === "%") continue;
    if (ended) throw new Error(`"${code}" after the end of the program`);
    const axes: Record<string, number> = {};
    for (const word of code.split(/\s+/)) {
      const [letter, value] = [word[0]!, Number(word.slice(1))];
      if (Number.isNaN(value)) throw new Error(`"${word}" is no word of a program`);
      if ("XYZRQFPS".includes(letter)) axes[letter] = value;
      else if (letter === "T") next = value;
      else if (word === "M6") tool = next!;
      else if (word === "M3") spindle = true;
      else if (word === "M5") spindle = false;
      else if (word === "M30") ended = true;
      else if (word === "G81" || word === "G83") [cycle, sticky] = [word, axes.Z ?? Number.NaN];
      else if (word === "G80") cycle = "";
      else if (word === "G0" || word === "G1") motion = word;
      else if (!/^G(4|17|21|40|49|90|94|98)$/.test(word)) throw new Error(`"${word}" is not expected`);
    }
    const moved = axes.X !== undefined || axes.Y !== undefined;
    if (moved && cycle === "" && motion === "G0" && z < 0)
      throw new Error(`"${code}" runs across the board below its surface`);
    if (axes.X !== undefined) x = axes.X;
    if (axes.Y !== undefined) y = axes.Y;
    if (cycle !== "") {
      if (axes.Z !== undefined) sticky = axes.Z;
      if (moved) stroke(-sticky);
    } else if (axes.Z !== undefined) {
      z = axes.Z;
      if (motion === "G1" && z < 0) stroke(-z);
    }
  }
  if (!ended) throw new Error("the program does not end");
  if (spindle) throw new Error("the program ends with the spindle on");
  return strokes;
}
