/** Rows of a 3 x 3 matrix one after another. Points are columns (x, y, 1). */
export type Homography = readonly [number, number, number, number, number, number, number, number, number];

export type Point = readonly [number, number];
export type FourPoints = readonly [Point, Point, Point, Point];

/**
 * The one plane-to-plane perspective that takes four points to four others, no three of either on a line.
 * Eight linear equations, two a point, by elimination with pivots; the points are brought near 1 first, so that pixels
 * and millimetres keep their last digits. Weights (`weightAt`) are 1 at the first point, and positive at all of four convex corners.
 * Source: Hartley and Zisserman, Multiple View Geometry, 2nd ed. 2004, section 4.1 (the inhomogeneous solution) and 4.4.4
 * (why to normalise).
 */
export function homographyOf(from: FourPoints, to: FourPoints): Homography {
  const [a, b] = [nearOne(from), nearOne(to)];
  const rows = from.flatMap((point, k) => {
    const [x, y] = through(a, point);
    const [u, v] = through(b, to[k]!);
    return [
      [x, y, 1, 0, 0, 0, -u * x, -u * y, u],
      [0, 0, 0, x, y, 1, -v * x, -v * y, v],
    ];
  });
  const h = [...solve(rows), 1] as unknown as Homography;
  return scaled(times(times(inverseNearOne(b), h), a), from[0]);
}

/** Where a point goes. The third coordinate must be positive: see `weightAt`. */
export function through(h: Homography, [x, y]: Point): Point {
  const w = weightAt(h, [x, y]);
  return [(h[0] * x + h[1] * y + h[2]) / w, (h[3] * x + h[4] * y + h[5]) / w];
}

/** The third coordinate of a point's image: it changes sign across the line that goes to infinity. */
export const weightAt = (h: Homography, [x, y]: Point): number => h[6] * x + h[7] * y + h[8];

/**
 * How long the image of a short step is, at the least and at the most, whichever way the step goes: the singular values of the derivative.
 */
export function stretchAt(h: Homography, point: Point): { readonly least: number; readonly most: number } {
  const w = weightAt(h, point);
  const [u, v] = through(h, point);
  const [a, b] = [(h[0] - u * h[6]) / w, (h[1] - u * h[7]) / w];
  const [c, d] = [(h[3] - v * h[6]) / w, (h[4] - v * h[7]) / w];
  const sum = a * a + b * b + c * c + d * d;
  const most = Math.sqrt((sum + Math.sqrt(Math.max(0, sum * sum - 4 * (a * d - b * c) ** 2))) / 2);
  return { least: Math.abs(a * d - b * c) / most, most };
}

/** Moves the points' middle to 0 and their mean distance from it to about 1. */
function nearOne(points: FourPoints): Homography {
  const [cx, cy] = [0, 1].map((axis) => points.reduce((sum, point) => sum + point[axis]! / 4, 0)) as [
    number,
    number,
  ];
  const k = 4 / points.reduce((sum, [x, y]) => sum + Math.hypot(x - cx, y - cy), 0);
  return [k, 0, -k * cx, 0, k, -k * cy, 0, 0, 1];
}

const inverseNearOne = ([k, , cx, , , cy]: Homography): Homography => [
  1 / k,
  0,
  -cx / k,
  0,
  1 / k,
  -cy / k,
  0,
  0,
  1,
];

const times = (a: Homography, b: Homography): Homography =>
  Array.from({ length: 9 }, (_, i) => {
    const [row, column] = [3 * Math.floor(i / 3), i % 3];
    return a[row]! * b[column]! + a[row + 1]! * b[column + 3]! + a[row + 2]! * b[column + 6]!;
  }) as unknown as Homography;

/** Times any number it is the same map: this one makes the weight at a point 1. */
const scaled = (h: Homography, point: Point): Homography => {
  const w = weightAt(h, point);
  return h.map((entry) => entry / w) as unknown as Homography;
};

/** Eight unknowns, each row's last entry its right-hand side. */
function solve(rows: number[][]): number[] {
  const n = rows.length;
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let row = column + 1; row < n; row++)
      if (Math.abs(rows[row]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = row;
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    const top = rows[column]!;
    if (Math.abs(top[column]!) < 1e-12) throw new Error("three of four points lie on a line");
    for (let row = 0; row < n; row++) {
      if (row === column) continue;
      const factor = rows[row]![column]! / top[column]!;
      for (let k = column; k <= n; k++) rows[row]![k] = rows[row]![k]! - factor * top[k]!;
    }
  }
  return rows.map((row, k) => row[n]! / row[k]!);
}
