// The IAU boundaries as arcs of the parallels and meridians of 1875, found by asking astronomy-engine where it changes its mind.
import { AstroTime, Constellation, RotateVector, Rotation_EQD_EQJ, Vector } from "astronomy-engine";

/** Right ascensions of Roman's table are whole seconds of time, declinations whole halves of an arcminute, equinox B1875. */
const RA_STEPS = 86_400;
const DEC_STEPS = 21_600;
const ARCMIN_A_STEP = 0.5;
/**
 * Asked at every half degree of right ascension of every twelfth of a degree of declination, then halved between answers
 * that differ. No area is narrower than the first; that none was missed is checked against another copy of the table
 * (scripts/reference/make_boundary_points.py).
 */
const RA_STRIDE = 120;
const DEC_STRIDE = 10;

/** The instant whose equator the library takes for B1875: its own rotation there and back, so that it sees the very cell. */
const LIBRARY_B1875 = new AstroTime(-45655.74141261017);
const toJ2000 = Rotation_EQD_EQJ(LIBRARY_B1875);
const RAD = Math.PI / 180;

/** From one right ascension (in steps) to the next change; the last run ends with the row. */
interface Run {
  readonly end: number;
  readonly code: string;
}

interface Arc {
  readonly along: "meridian" | "parallel";
  /** Right ascension in seconds of time and declination in arcminutes, of both ends. */
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  /** Side of lower right ascension or declination, and the other. */
  readonly low: string;
  readonly high: string;
}

/** Code of the cell whose lower corner is (ra, dec) in steps, asked at its middle. */
function cellCode(raStep: number, decStep: number): string {
  const ra = ((raStep + 0.5) / RA_STEPS) * 2 * Math.PI;
  const dec = (((decStep + 0.5) / DEC_STEPS) * 180 - 90) * RAD;
  const v = new Vector(
    Math.cos(dec) * Math.cos(ra),
    Math.cos(dec) * Math.sin(ra),
    Math.sin(dec),
    LIBRARY_B1875,
  );
  const { x, y, z } = RotateVector(toJ2000, v);
  return Constellation(Math.atan2(y, x) / RAD / 15, Math.atan2(z, Math.hypot(x, y)) / RAD).symbol;
}

function runsOf(decStep: number): Run[] {
  const runs: Run[] = [];
  const between = (a: number, codeA: string, b: number, codeB: string): void => {
    if (codeA === codeB) return;
    if (b === a + 1) {
      runs.push({ end: b, code: codeA });
      return;
    }
    const middle = (a + b) >> 1;
    const code = cellCode(middle, decStep);
    between(a, codeA, middle, code);
    between(middle, code, b, codeB);
  };
  let [at, code] = [0, cellCode(0, decStep)];
  for (let next = RA_STRIDE; at < RA_STEPS - 1; next += RA_STRIDE) {
    const to = Math.min(next, RA_STEPS - 1);
    const found = cellCode(to, decStep);
    between(at, code, to, found);
    [at, code] = [to, found];
  }
  runs.push({ end: RA_STEPS, code });
  return runs;
}

/** Rows of equal runs, from the south: where each begins. */
function bands(): { begins: number; runs: Run[] }[] {
  const found = [{ begins: 0, runs: runsOf(0) }];
  const between = (a: number, runsA: Run[], b: number, runsB: Run[]): void => {
    if (same(runsA, runsB)) return;
    if (b === a + 1) {
      found.push({ begins: b, runs: runsB });
      return;
    }
    const middle = (a + b) >> 1;
    const runs = runsOf(middle);
    between(a, runsA, middle, runs);
    between(middle, runs, b, runsB);
  };
  let [at, runs] = [0, found[0]!.runs];
  for (let next = DEC_STRIDE; at < DEC_STEPS - 1; next += DEC_STRIDE) {
    const to = Math.min(next, DEC_STEPS - 1);
    const later = runsOf(to);
    between(at, runs, to, later);
    [at, runs] = [to, later];
  }
  return found;
}

const same = (a: readonly Run[], b: readonly Run[]): boolean =>
  a.length === b.length && a.every((run, i) => run.end === b[i]!.end && run.code === b[i]!.code);

/** data/boundaries.tsv. */
export function boundaryTable(): { tsv: string; rows: number } {
  const arcs: Arc[] = [];
  const dec = (step: number): number => step * ARCMIN_A_STEP - 5400;
  /** Meridians not yet finished, by right ascension and sides: where they began. */
  let open = new Map<string, number>();
  let below: Run[] = [];
  for (const { begins, runs } of [...bands(), { begins: DEC_STEPS, runs: [] }]) {
    const now = new Map<string, number>();
    for (const [i, { end, code }] of runs.entries()) {
      const next = runs[(i + 1) % runs.length]!.code;
      if (next === code) continue; // 0h, with the same on both sides
      const key = `${end % RA_STEPS} ${code} ${next}`;
      now.set(key, open.get(key) ?? begins);
    }
    for (const [key, began] of open) {
      if (now.has(key)) continue;
      const [ra, low, high] = key.split(" ") as [string, string, string];
      arcs.push({
        along: "meridian",
        from: [Number(ra), dec(began)],
        to: [Number(ra), dec(begins)],
        low,
        high,
      });
    }
    if (begins > 0 && begins < DEC_STEPS) arcs.push(...parallels(below, runs, dec(begins)));
    open = now;
    below = runs;
  }
  arcs.sort((a, b) => a.from[0] - b.from[0] || a.from[1] - b.from[1] || a.to[0] - b.to[0]);
  const lines = arcs.map(({ along, from, to, low, high }) => [along, ...from, ...to, low, high].join("\t"));
  const head = "along\tra_from_s\tdec_from_arcmin\tra_to_s\tdec_to_arcmin\tlow_side\thigh_side";
  return { tsv: `${head}\n${lines.join("\n")}\n`, rows: arcs.length };
}

/** Where two rows of cells, one on the other, belong to different constellations. */
function parallels(south: readonly Run[], north: readonly Run[], decArcmin: number): Arc[] {
  const pieces: { from: number; to: number; low: string; high: string }[] = [];
  for (let i = 0, j = 0, at = 0; at < RA_STEPS; ) {
    const [low, high] = [south[i]!, north[j]!];
    const to = Math.min(low.end, high.end);
    const last = pieces.at(-1);
    if (low.code !== high.code) {
      if (last && last.to === at && last.low === low.code && last.high === high.code) last.to = to;
      else pieces.push({ from: at, to, low: low.code, high: high.code });
    }
    if (low.end === to) i++;
    if (high.end === to) j++;
    at = to;
  }
  const [first, last] = [pieces[0], pieces.at(-1)];
  if (
    first &&
    last &&
    first !== last &&
    first.from === 0 &&
    last.to === RA_STEPS &&
    first.low === last.low &&
    first.high === last.high
  ) {
    last.to += first.to; // one arc across 0h
    pieces.shift();
  }
  return pieces.map(({ from, to, low, high }) => ({
    along: "parallel",
    from: [from, decArcmin],
    to: [to, decArcmin],
    low,
    high,
  }));
}
