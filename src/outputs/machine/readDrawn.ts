/** A hole that a drawing or a drill file gives. */
export interface DrawnHole {
  readonly xMm: number;
  readonly yMm: number;
  readonly bitMm: number;
}

/** Circles of a DXF, and whether it says that its unit is the millimetre: pairs of a code's line and a value's line. */
export function readDxfCircles(text: string): {
  readonly inMm: boolean;
  readonly holes: readonly (DrawnHole & { readonly layer: string })[];
} {
  const lines = text.split("\n").map((line) => line.trim());
  const holes: (DrawnHole & { layer: string })[] = [];
  let inMm = false;
  for (let i = 0; i + 1 < lines.length; i += 2) {
    if (lines[i] === "9" && lines[i + 1] === "$INSUNITS") inMm = lines[i + 3] === "4";
    if (lines[i] !== "0" || lines[i + 1] !== "CIRCLE") continue;
    const its = new Map<string, string>();
    for (let k = i + 2; k + 1 < lines.length && lines[k] !== "0"; k += 2) its.set(lines[k]!, lines[k + 1]!);
    holes.push({
      xMm: Number(its.get("10")),
      yMm: Number(its.get("20")),
      bitMm: 2 * Number(its.get("40")),
      layer: its.get("8") ?? "",
    });
  }
  return { inMm, holes };
}

/** Hits of an XNC file. @throws Error for one that is not metric, and for a line that it does not know */
export function readXnc(text: string): DrawnHole[] {
  const bits = new Map<string, number>();
  const holes: DrawnHole[] = [];
  let tool = "";
  let [metric, ended] = [false, false];
  for (const line of text.split("\n")) {
    if (line === "" || line.startsWith(";")) continue;
    const bit = /^(T\d+)C([\d.]+)$/.exec(line);
    const hit = /^X(-?[\d.]+)Y(-?[\d.]+)$/.exec(line);
    if (line === "METRIC") metric = true;
    else if (line === "M30") ended = true;
    else if (bit) bits.set(bit[1]!, Number(bit[2]));
    else if (/^T\d+$/.test(line)) tool = line;
    else if (hit)
      holes.push({ xMm: Number(hit[1]), yMm: Number(hit[2]), bitMm: bits.get(tool) ?? Number.NaN });
    else if (!["M48", "%", "G05"].includes(line)) throw new Error(`"${line}" is not expected`);
  }
  if (!metric || !ended) throw new Error(metric ? "the file does not end" : "the file does not say METRIC");
  return holes;
}
