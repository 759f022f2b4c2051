/** A point of a plane. */
export type PlanePoint = readonly [x: number, y: number];

/** The best move, turn and scale from one set of points to another. */
export interface SimilarityFit {
  readonly scale: number;
  /** Counter-clockwise. */
  readonly turnDeg: number;
  /** RMS distance that remains. */
  readonly rms: number;
  /** RMS distance of the first set from its middle. */
  readonly size: number;
}

/**
 * Least squares over translation, rotation and scale, without reflection; null for fewer than two points or all in one place.
 * Source: S. Umeyama, "Least-squares estimation of transformation parameters between two point patterns", IEEE PAMI 13 (1991)
 * 376. In a plane his decomposition has a closed form: with centred points as complex numbers p and q, the turn times the
 * scale is sum(conj(p) q) / sum(|p|^2).
 */
export function similarityFit(from: readonly PlanePoint[], to: readonly PlanePoint[]): SimilarityFit | null {
  const n = from.length;
  if (n < 2) return null;
  const [fx, fy] = middle(from);
  const [tx, ty] = middle(to);
  let [along, across, fromSquares, toSquares] = [0, 0, 0, 0];
  for (let i = 0; i < n; i++) {
    const [px, py] = [from[i]![0] - fx, from[i]![1] - fy];
    const [qx, qy] = [to[i]![0] - tx, to[i]![1] - ty];
    along += px * qx + py * qy;
    across += px * qy - py * qx;
    fromSquares += px * px + py * py;
    toSquares += qx * qx + qy * qy;
  }
  if (fromSquares === 0) return null;
  const shared = Math.hypot(along, across);
  return {
    scale: shared / fromSquares,
    turnDeg: (Math.atan2(across, along) * 180) / Math.PI,
    rms: Math.sqrt(Math.max(0, toSquares - (shared * shared) / fromSquares) / n),
    size: Math.sqrt(fromSquares / n),
  };
}

function middle(points: readonly PlanePoint[]): PlanePoint {
  let [x, y] = [0, 0];
  for (const point of points) {
    x += point[0];
    y += point[1];
  }
  return [x / points.length, y / points.length];
}
