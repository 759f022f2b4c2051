// Ratios, not seconds: each of our times beside another taken in the same run on the same machine.
//   npm run build && npm run bench
// Needs Debian's python3-erfa and python3-numpy for the first rows.
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { loadSkyData } from "../src/cli/dataFiles.ts";
import { readPlanFile } from "../src/cli/planFile.ts";
import { strandStock } from "../src/fibre/stock.ts";
import { makePlacer } from "../src/panel/placement.ts";
import { workPanels } from "../src/panel/work.ts";
import { inCeilingFrame } from "../src/projection/frames.ts";
import { encodePreview, rasterizePreview, sceneOf } from "../src/render/index.ts";
import { planSky, scheduleFrom } from "../src/schedule/makeSchedule.ts";
import { selectHoles } from "../src/schedule/select.ts";
import { apparentDirections, horizontalCoordinates } from "../src/sky/apparent.ts";
import { decodeCatalogue, starVectors } from "../src/sky/catalogue.ts";
import { observerAt } from "../src/sky/observer.ts";

const DEMO = "scripts/demo/bookshop.yaml";
const BIN = "dist/lacunar.cjs";

interface Spread {
  readonly min: number;
  readonly median: number;
  readonly max: number;
}

const spreadOf = (values: readonly number[]): Spread => {
  const sorted = [...values].sort((a, b) => a - b);
  return { min: sorted[0]!, median: sorted[Math.floor(sorted.length / 2)]!, max: sorted.at(-1)! };
};

function timed(runs: number, act: () => void, warmUp = 3): Spread {
  for (let i = 0; i < warmUp; i++) act();
  return spreadOf(
    Array.from({ length: runs }, () => {
      const start = performance.now();
      act();
      return performance.now() - start;
    }),
  );
}

async function timedAsync(runs: number, act: () => Promise<unknown>): Promise<Spread> {
  await act();
  const values: number[] = [];
  for (let i = 0; i < runs; i++) {
    const start = performance.now();
    await act();
    values.push(performance.now() - start);
  }
  return spreadOf(values);
}

const ms = ({ min, median, max }: Spread) =>
  `${median.toFixed(1)} ms (${min.toFixed(1)} to ${max.toFixed(1)})`;
const say = (what: string, bar: string, measured: string) =>
  console.log(`${what.padEnd(46)}  ${measured}   [bar: ${bar}]`);

// 1. The catalogue pass against ERFA, one process each, one core.
const sky = loadSkyData();
const instant = Date.parse("1998-07-12T01:15:00Z");
const place = { latitudeDeg: -33.0458, longitudeDeg: -71.6197, elevationM: 10 };
const vectors = timed(25, () => void apparentDirections(sky.stars, observerAt(instant, place)), 10);
const angles = timed(
  25,
  () => void horizontalCoordinates(apparentDirections(sky.stars, observerAt(instant, place))),
  10,
);
const python = spawnSync("/usr/bin/python3", ["scripts/bench/erfa_pass.py"], { encoding: "utf8" });
if (python.status === 0) {
  const erfa = JSON.parse(python.stdout) as { n: number; vectorsMs: number[]; altAzMs: number[] };
  say(
    `horizon unit vectors of ${erfa.n} stars`,
    "20 times faster than ERFA",
    `${(erfa.vectorsMs[1]! / vectors.median).toFixed(1)} times: ${ms(vectors)} against ${erfa.vectorsMs[1]!.toFixed(1)} ms`,
  );
  say(
    "altitude and azimuth of the same",
    "6 times faster than ERFA",
    `${(erfa.altAzMs[1]! / angles.median).toFixed(1)} times: ${ms(angles)} against ${erfa.altAzMs[1]!.toFixed(1)} ms`,
  );
} else {
  console.log(`ERFA left out: ${python.stderr.trim().split("\n").at(-1) ?? "no python3-erfa"}`);
}

// 2. Loading the catalogue, warm disk.
const bytes = readFileSync("data/stars.bin");
say(
  "decoding the catalogue, all vectors",
  "15 ms",
  ms(timed(9, () => void starVectors(decodeCatalogue(bytes)), 0)),
);

// 3. Whole commands, cold: every run is a process of its own.
const folder = mkdtempSync(join(tmpdir(), "lacunar-bench-"));
const plan = readFileSync(DEMO, "utf8");
const withStrands = (count: number, name: string): string => {
  const path = join(folder, name);
  const text = plan
    .replace(
      /bundles: .*/,
      `bundles: {count: ${count / 100}, strands: {0.5mm: 80, 0.75mm: 14, 1mm: 5, 1.5mm: 1}}`,
    )
    .replace("reserve: 3%", "reserve: 0%");
  writeFileSync(path, text);
  return path;
};
const run = (args: readonly string[]) => () =>
  void execFileSync(process.execPath, args, { stdio: ["ignore", "pipe", "ignore"], maxBuffer: 2 ** 28 });
const bare: number[] = [];
const cold: number[] = [];
const small = withStrands(800, "800.yaml");
const holesOf = (path: string) => run([BIN, "holes", path, "--quiet"]);
for (let i = 0; i < 21; i++) {
  const one = (list: number[], act: () => void) => {
    const start = performance.now();
    act();
    if (i > 0) list.push(performance.now() - start);
  };
  one(bare, run(["-e", "0"]));
  one(cold, holesOf(small));
}
const ratios = spreadOf(cold.map((value, i) => value / bare[i]!));
say(
  "holes of 800 fibres, cold, against node -e 0",
  "4 times",
  `${ratios.median.toFixed(2)} times (pair by pair ${ratios.min.toFixed(2)} to ${ratios.max.toFixed(2)})`,
);

const places = timed(7, run([BIN, "places", "Porto", "--quiet"]), 1);
say(
  "places Porto, cold, against node -e 0",
  "0.6 s",
  `${(places.median / spreadOf(bare).median).toFixed(1)} times: ${ms(places)}`,
);

const memoryMb = (path: string): number => {
  const { stderr } = spawnSync(
    process.execPath,
    ["--require", "./scripts/bench/reportMemory.cjs", BIN, "holes", path, "--quiet"],
    { encoding: "utf8", maxBuffer: 2 ** 28 },
  );
  return Number(/maxRSS=(\d+)/.exec(stderr)![1]) / 1024;
};
say("holes of the demo, most memory", "250 MB", `${memoryMb(DEMO).toFixed(0)} MB`);
const large = withStrands(20_000, "20000.yaml");
const big = timed(5, holesOf(large), 1);
say("holes of 20,000 fibres", "5 s, 1 GB", `${ms(big)}, ${memoryMb(large).toFixed(0)} MB`);

const inProcess = (path: string) => {
  const read = readPlanFile(path).plan;
  return timed(7, () => void scheduleFrom(read, sky, planSky(read, sky)));
};
const [few, many] = [inProcess(small), inProcess(large)];
say(
  "growth from 800 to 20,000, start-up left out",
  "n^1.2",
  `n^${(Math.log(many.median / few.median) / Math.log(25)).toFixed(2)}: ${ms(few)} to ${ms(many)}`,
);

// 3b. Merging, grading and placing behind a frame, on the panels that are laid out once.
const FRAME = "frame: {batten: {width: 38mm, depth: 38mm}, crossBattens: 1}\n";
const KEEP_OUTS =
  "keepOut: [{id: G, kind: grille, x: 600, y: 900, width: 300, length: 160}, {id: L, kind: luminaire, at: [2100, 1000], radius: 60}]\n";
const placing = (from: string, more: string, runs: number) => {
  const path = `${from}.framed.yaml`;
  writeFileSync(path, `${readFileSync(from, "utf8")}\n${more}`);
  const read = readPlanFile(path).plan;
  const { field } = planSky(read, sky);
  const panels = workPanels(inCeilingFrame(read));
  const stock = strandStock(read.fibre);
  return timed(
    runs,
    () => void selectHoles(field, makePlacer(panels, read.holes, read.frame), stock, read),
    1,
  );
};
say("placing 800 holes behind 38 mm battens", "150 ms", ms(placing(small, FRAME, 9)));
say("the same with two keep-outs", "150 ms", ms(placing(small, FRAME + KEEP_OUTS, 9)));
say("placing 20,000 holes behind 38 mm battens", "3 s", ms(placing(large, FRAME, 3)));
say("the same with two keep-outs", "3 s", ms(placing(large, FRAME + KEEP_OUTS, 3)));

// 4. The preview against the encoding of the same pixels.
const demo = readPlanFile(DEMO).plan;
const planned = planSky(demo, sky);
const scene = sceneOf(scheduleFrom(demo, sky, planned), planned.field.view);
const raster = rasterizePreview(scene, { widthPx: 3840 });
const raw = { width: raster.widthPx, height: raster.heightPx, channels: raster.channels };
const encode = await timedAsync(7, () => sharp(raster.data, { raw }).png().toBuffer());
const preview = await timedAsync(7, () => encodePreview(rasterizePreview(scene, { widthPx: 3840 }), "png"));
const alike = await timedAsync(7, () => encodePreview(raster, "png"));
say(
  "preview of 3840 px against its own encoding",
  "2 times",
  `${(preview.median / alike.median).toFixed(2)} times: ${ms(preview)} against ${ms(alike)}`,
);
say(
  "preview of 3840 px against sharp's default encoding",
  "2 times",
  `${(preview.median / encode.median).toFixed(2)} times: ${ms(preview)} against ${ms(encode)}`,
);

rmSync(folder, { recursive: true, force: true });
