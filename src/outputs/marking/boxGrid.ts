/** A rectangle in pixels, y down. */
export interface BoxPx {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Boxes sorted into square cells, so that asking about one does not walk over all. */
export interface BoxGrid {
  add(box: BoxPx): void;
  /** Boxes along a straight line. */
  addLine(from: readonly [number, number], to: readonly [number, number]): void;
  /** How many boxes meet this one. */
  count(box: BoxPx): number;
}

const meets = (a: BoxPx, b: BoxPx) =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

export function boxGrid(cellPx: number): BoxGrid {
  const cells = new Map<string, BoxPx[]>();
  const keysOf = ({ left, right, top, bottom }: BoxPx): string[] => {
    const keys: string[] = [];
    for (let c = Math.floor(left / cellPx); c <= Math.floor(right / cellPx); c++)
      for (let r = Math.floor(top / cellPx); r <= Math.floor(bottom / cellPx); r++) keys.push(`${c},${r}`);
    return keys;
  };
  const add = (box: BoxPx): void => {
    for (const key of keysOf(box)) {
      const cell = cells.get(key);
      if (cell) cell.push(box);
      else cells.set(key, [box]);
    }
  };
  return {
    add,
    addLine([x0, y0], [x1, y1]) {
      const pieces = Math.max(1, Math.ceil(Math.hypot(x1 - x0, y1 - y0) / (cellPx / 8)));
      for (let k = 0; k < pieces; k++) {
        const [xa, xb] = [x0 + (k / pieces) * (x1 - x0), x0 + ((k + 1) / pieces) * (x1 - x0)];
        const [ya, yb] = [y0 + (k / pieces) * (y1 - y0), y0 + ((k + 1) / pieces) * (y1 - y0)];
        add({
          left: Math.min(xa, xb) - 1,
          right: Math.max(xa, xb) + 1,
          top: Math.min(ya, yb) - 1,
          bottom: Math.max(ya, yb) + 1,
        });
      }
    },
    count(box) {
      const met = new Set<BoxPx>();
      for (const key of keysOf(box))
        for (const other of cells.get(key) ?? []) if (meets(box, other)) met.add(other);
      return met.size;
    },
  };
}
