/**
 * How faint the star catalogue is complete, by distance from the Milky Way's middle line: counts in steps of a quarter of a
 * magnitude against the growth of the brighter steps carried on. `npx tsx scripts/catalogue-limit.ts`
 */
import { loadSkyData } from "../src/cli/dataFiles.ts";
import { ICRS_TO_GALACTIC } from "../src/sky/galactic.ts";
import { apply, type Vector3 } from "../src/sky/matrix.ts";

const ZONES_DEG = [0, 5, 10, 20, 30, 45, 60, 90];
const STEP_MAG = 0.25;
/** The steps that the line is fitted to: bright enough to be whole everywhere, many enough to give a slope. */
const FITTED_MAG = [5, 6.75] as const;
const SHOWN_MAG = [6, 9.5] as const;

const { catalogue } = loadSkyData();
const zones = ZONES_DEG.slice(1).map((to, i) => ({
  from: ZONES_DEG[i]!,
  to,
  counts: new Array<number>(80).fill(0),
}));
for (let row = 0; row < catalogue.count; row++) {
  const icrs = catalogue.unitJ2000.subarray(row * 3, row * 3 + 3) as unknown as Vector3;
  const fromPlaneDeg = (Math.abs(Math.asin(apply(ICRS_TO_GALACTIC, icrs)[2])) * 180) / Math.PI;
  const step = Math.floor(catalogue.vCentiMag[row]! / (100 * STEP_MAG));
  if (step >= 0 && step < 80) zones.find(({ to }) => fromPlaneDeg <= to)!.counts[step]!++;
}

/** Least squares of log10(count) on magnitude, each step weighed by its count (the variance of a count's logarithm is 1/n). */
function growth(counts: readonly number[]): { at: (mag: number) => number; slope: number } {
  let [w, wx, wy, wxx, wxy] = [0, 0, 0, 0, 0];
  for (let step = FITTED_MAG[0] / STEP_MAG; step < FITTED_MAG[1] / STEP_MAG; step++) {
    const [n, x, y] = [counts[step]!, step * STEP_MAG, Math.log10(counts[step]!)];
    w += n;
    wx += n * x;
    wy += n * y;
    wxx += n * x * x;
    wxy += n * x * y;
  }
  const slope = (w * wxy - wx * wy) / (w * wxx - wx * wx);
  return { slope, at: (mag) => 10 ** ((wy - slope * wx) / w + slope * mag) };
}

const lines = zones.map(({ counts }) => growth(counts));
const cell = (text: string) => text.padStart(16);
console.log("count and share of what the growth from V 5 to 6.75 leads to, by galactic latitude");
console.log(`V         ${zones.map(({ from, to }) => cell(`${from} to ${to}`)).join("")}`);
for (let step = SHOWN_MAG[0] / STEP_MAG; step < SHOWN_MAG[1] / STEP_MAG; step++) {
  const mag = step * STEP_MAG;
  const cells = zones.map(({ counts }, z) => {
    const expected = lines[z]!.at(mag);
    return cell(
      `${counts[step]} ${(counts[step]! / expected).toFixed(2)}±${(1 / Math.sqrt(expected)).toFixed(2)}`,
    );
  });
  console.log(`${mag.toFixed(2)}-${(mag + STEP_MAG).toFixed(2)} ${cells.join("")}`);
}
console.log(`slope     ${lines.map((line) => cell(line.slope.toFixed(3))).join("")}`);
const middle = (from: number, to: number) => Math.sin((((from + to) / 2) * Math.PI) / 180);
console.log(
  `7.3+      ${zones.map(({ from, to }) => cell((7.3 + 1.1 * middle(from, to)).toFixed(2))).join("")}   7.3 + 1.1 |sin b|`,
);
const all = (limit: number) => catalogue.vCentiMag.reduce((sum, v) => sum + (v <= limit * 100 ? 1 : 0), 0);
for (const limit of [6.5, 7, 7.25, 7.3, 7.5, 8]) console.log(`V <= ${limit}: ${all(limit)} stars`);
