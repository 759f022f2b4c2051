/** A rotation as nine numbers, row by row: it takes a column vector from one frame to another. */
export type Matrix3 = readonly [number, number, number, number, number, number, number, number, number];
export type Vector3 = readonly [number, number, number];

/** a after b. */
export function multiply(a: Matrix3, b: Matrix3): Matrix3 {
  const out: number[] = [];
  for (let row = 0; row < 3; row++) {
    for (let column = 0; column < 3; column++) {
      out.push(
        a[row * 3]! * b[column]! + a[row * 3 + 1]! * b[3 + column]! + a[row * 3 + 2]! * b[6 + column]!,
      );
    }
  }
  return out as unknown as Matrix3;
}

export const apply = (m: Matrix3, v: Vector3): Vector3 => [
  m[0] * v[0] + m[1] * v[1] + m[2] * v[2],
  m[3] * v[0] + m[4] * v[1] + m[5] * v[2],
  m[6] * v[0] + m[7] * v[1] + m[8] * v[2],
];

/** The inverse rotation, applied. */
export const applyInverse = (m: Matrix3, v: Vector3): Vector3 => [
  m[0] * v[0] + m[3] * v[1] + m[6] * v[2],
  m[1] * v[0] + m[4] * v[1] + m[7] * v[2],
  m[2] * v[0] + m[5] * v[1] + m[8] * v[2],
];

/** Turns the frame about its x axis: a vector at +y moves toward -z for a positive angle. */
export const rotateFrameX = (angleRad: number): Matrix3 => {
  const [c, s] = [Math.cos(angleRad), Math.sin(angleRad)];
  return [1, 0, 0, 0, c, s, 0, -s, c];
};

/** Turns the frame about its z axis. */
export const rotateFrameZ = (angleRad: number): Matrix3 => {
  const [c, s] = [Math.cos(angleRad), Math.sin(angleRad)];
  return [c, s, 0, -s, c, 0, 0, 0, 1];
};

export const dot = (a: Vector3, b: Vector3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export const cross = (a: Vector3, b: Vector3): Vector3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

export function normalise(v: Vector3): Vector3 {
  const length = Math.hypot(v[0], v[1], v[2]);
  return [v[0] / length, v[1] / length, v[2] / length];
}
