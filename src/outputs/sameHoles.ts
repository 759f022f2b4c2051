import type { DrawnHole } from "./machine/readDrawn.ts";

/** Between a hole and where an output puts it. */
export const SAME_MM = 0.01;

/** What a hole must be in one output. */
export interface WantedHole extends DrawnHole {
  readonly hole: string;
}

export const same = (a: DrawnHole, b: DrawnHole) =>
  Math.abs(a.xMm - b.xMm) <= SAME_MM &&
  Math.abs(a.yMm - b.yMm) <= SAME_MM &&
  Math.abs(a.bitMm - b.bitMm) < 0.006;

/** Both ways: no hole missing, none too many, none twice. */
export function sameHoles(wanted: readonly WantedHole[], drawn: readonly DrawnHole[]): string[] {
  const cell = (mm: number) => Math.round(mm);
  const at = new Map<string, DrawnHole[]>();
  for (const one of drawn) {
    const key = `${cell(one.xMm)} ${cell(one.yMm)}`;
    const list = at.get(key);
    if (list) list.push(one);
    else at.set(key, [one]);
  }
  const faults: string[] = [];
  let met = 0;
  for (const hole of wanted) {
    let its = 0;
    for (const dx of [-1, 0, 1])
      for (const dy of [-1, 0, 1])
        for (const one of at.get(`${cell(hole.xMm) + dx} ${cell(hole.yMm) + dy}`) ?? [])
          if (same(hole, one)) its++;
    met += its;
    if (its !== 1) faults.push(its === 0 ? `${hole.hole} is missing` : `${hole.hole} is there ${its} times`);
  }
  if (met !== drawn.length) faults.push(`${drawn.length - met} holes that are not in the schedule`);
  return faults;
}
