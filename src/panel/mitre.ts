import { drawnIn, LONGEST_MITRE } from "./clip.ts";
import { counterClockwise, type Ring, selfCrossing } from "./rings.ts";

/**
 * The ring drawn in by so much, corners mitred: exact where every side keeps a length, by clipping (whole 1/10,000 mm, corners
 * sharper than about 12 degrees cut off) where some vanish. None, one or several rings.
 */
export function inset(ring: Ring, byMm: number): Ring[] {
  const around = counterClockwise(ring);
  if (byMm === 0) return [around];
  const moved = mitred(around, byMm);
  return moved === null ? drawnIn(around, byMm) : [moved];
}

/**
 * Corner by corner along the bisectors; null when a side would turn round or run into another one, and for a notch so sharp that
 * its mitre would run on for more than ten times the distance.
 * @param ring counter-clockwise
 */
export function mitred(ring: Ring, byMm: number): Ring | null {
  const n = ring.length;
  const normal = (i: number) => {
    const [ax, ay] = ring[i]!;
    const [bx, by] = ring[(i + 1) % n]!;
    const span = Math.hypot(bx - ax, by - ay);
    return [-(by - ay) / span, (bx - ax) / span] as const;
  };
  let sharp = false;
  const moved = ring.map(([x, y], i) => {
    const [px, py] = normal((i + n - 1) % n);
    const [qx, qy] = normal(i);
    const doubled = 1 + px * qx + py * qy;
    if (px * qy - py * qx < 0 && doubled < 2 / LONGEST_MITRE ** 2) sharp = true;
    const scale = byMm / doubled;
    return [x + (px + qx) * scale, y + (py + qy) * scale] as const;
  });
  if (sharp) return null;
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    const along =
      (moved[j]![0] - moved[i]![0]) * (ring[j]![0] - ring[i]![0]) +
      (moved[j]![1] - moved[i]![1]) * (ring[j]![1] - ring[i]![1]);
    if (!(along > 0)) return null;
  }
  return selfCrossing(moved) === null ? moved : null;
}
