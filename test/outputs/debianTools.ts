import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";

/** Debian's own Python, where python3-ezdxf is installed. */
export const PYTHON = "/usr/bin/python3";

export const hasEzdxf = spawnSync(PYTHON, ["-c", "import ezdxf"]).status === 0;
/** LinuxCNC's stand-alone interpreter, of Debian's linuxcnc-uspace. */
export const hasRs274 = existsSync("/usr/bin/rs274");
export const hasGerbv = existsSync("/usr/bin/gerbv");

export function run(command: string, args: readonly string[]): string {
  const { status, stdout, stderr, error } = spawnSync(command, args, {
    encoding: "utf8",
    maxBuffer: 2 ** 28,
  });
  if (status !== 0)
    throw new Error(`${command} ${args.join(" ")}: ${error?.message ?? stderr.slice(0, 2000)}`);
  return stdout;
}

/** A hole as somebody else's reader finds it. */
export interface FoundHole {
  readonly xMm: number;
  readonly yMm: number;
  readonly bitMm: number;
}

/**
 * Strokes in what rs274 says a machine would do: canonical calls, mm. A hole is what lies under one X Y; also tells of rapid moves
 * across the board that are not above `safeMm`.
 */
export function rs274Holes(
  listing: string,
  safeMm: number,
): { holes: (FoundHole & { tool: number; depthMm: number; spindle: boolean })[]; lowMoves: string[] } {
  const holes: (FoundHole & { tool: number; depthMm: number; spindle: boolean })[] = [];
  const lowMoves: string[] = [];
  let [x, y, z, tool, spindle] = [0, 0, 0, 0, false];
  for (const line of listing.split("\n")) {
    const call = /N\.*\s*(\w+)\((.*)\)/.exec(line);
    if (!call) continue;
    const values = call[2]!.split(",").map(Number);
    if (call[1] === "CHANGE_TOOL") tool = values[0]!;
    else if (call[1] === "START_SPINDLE_CLOCKWISE") spindle = true;
    else if (call[1] === "STOP_SPINDLE_TURNING") spindle = false;
    else if (call[1] === "STRAIGHT_TRAVERSE" || call[1] === "STRAIGHT_FEED") {
      const [toX, toY, toZ] = values as [number, number, number];
      if ((toX !== x || toY !== y) && Math.min(z, toZ) < safeMm - 1e-6 && holes.length > 0)
        lowMoves.push(line);
      [x, y, z] = [toX, toY, toZ];
      if (call[1] === "STRAIGHT_FEED" && z < 0) {
        const last = holes.at(-1);
        if (last && last.xMm === x && last.yMm === y && last.tool === tool)
          holes[holes.length - 1] = { ...last, depthMm: Math.max(last.depthMm, -z) };
        else holes.push({ xMm: x, yMm: y, bitMm: Number.NaN, tool, depthMm: -z, spindle });
      }
    }
  }
  return { holes, lowMoves };
}

/** Holes of an RS-274X that gerbv wrote: inches, six decimals, apertures by diameter. */
export function gerbvHoles(rs274x: string): FoundHole[] {
  const apertures = new Map<string, number>();
  const holes: FoundHole[] = [];
  let current = "";
  if (!rs274x.includes("%MOIN*%") || !rs274x.includes("%FSLAX36Y36*%"))
    throw new Error("another unit or format");
  for (const line of rs274x.split("\n")) {
    const aperture = /^%ADD(\d+)C,([\d.]+)\*%/.exec(line);
    const chosen = /^G54D(\d+)\*/.exec(line);
    const flash = /^(?:G0?1)?X(-?\d+)Y(-?\d+)D03\*/.exec(line);
    if (aperture) apertures.set(aperture[1]!, Number(aperture[2]) * 25.4);
    else if (chosen) current = chosen[1]!;
    else if (flash)
      holes.push({
        xMm: (Number(flash[1]) / 1e6) * 25.4,
        yMm: (Number(flash[2]) / 1e6) * 25.4,
        bitMm: apertures.get(current)!,
      });
  }
  return holes;
}
