/** How a fibre's diameter is shown wherever holes are marked: by shape and colour, never by colour alone. */
export interface SizeSymbol {
  readonly name: string;
  /** From Okabe and Ito's palette, 3 to 1 on white at least (WCAG 2, 1.4.11); CC79A7 is 3.06 to 1. */
  readonly colour: string;
  /** For black grounds, from the same palette: 5 to 1 on black at least. */
  readonly colourOnDark: string;
  /** Corners about (0, 0), y UP, at scale 1; a disc has many. */
  readonly ring: readonly (readonly [number, number])[];
  /** Path data about (0, 0), y UP, with lengths multiplied by `scale`. At scale 1 it suits a drawing in paper mm. */
  path(scale: number): string;
  /** Farthest from the centre that it reaches at scale 1, mm. */
  readonly reachMm: number;
}

/**
 * A symbol for each diameter: the four common ones always have the same; others get further shapes in black, thinnest first.
 * @param diametersMm  all sizes of the plan, each once, so that one has the same symbol on every sheet
 */
export function symbolsOf(diametersMm: readonly number[]): ReadonlyMap<number, SizeSymbol> {
  const symbols = new Map<number, SizeSymbol>();
  let others = 0;
  for (const diameterMm of [...diametersMm].sort((a, b) => a - b))
    symbols.set(diameterMm, COMMON.get(diameterMm) ?? otherSymbol(others++, diameterMm));
  return symbols;
}

/** Corner k of n on a circle, the first at an angle counted counter-clockwise from +X. */
const corners = (n: number, firstDeg: number, radius: (k: number) => number): [number, number][] =>
  Array.from({ length: n }, (_, k) => {
    const angle = ((firstDeg + (360 * k) / n) * Math.PI) / 180;
    return [radius(k) * Math.cos(angle), radius(k) * Math.sin(angle)];
  });

/** Four decimals: symbols may be drawn in mm of paper as well as of ceiling. */
const number = (value: number) => String(Number(value.toFixed(4)));

const OTHER_COLOUR = "#000000";

/** Blue and black are too dark on black: sky blue and yellow stand in, 9.1 and 15.9 to 1. The others are 5.4 to 1 or more as they are. */
const onDark = (colour: string): string =>
  ({ "#0072B2": "#56B4E9", [OTHER_COLOUR]: "#F0E442" })[colour] ?? colour;

const polygon = (name: string, colour: string, points: readonly [number, number][]): SizeSymbol => ({
  name,
  colour,
  colourOnDark: onDark(colour),
  ring: points,
  reachMm: Math.max(...points.map(([x, y]) => Math.hypot(x, y))),
  path: (scale) => `M${points.map(([x, y]) => `${number(x * scale)} ${number(y * scale)}`).join("L")}Z`,
});

const disc = (name: string, colour: string, radius: number): SizeSymbol => ({
  name,
  colour,
  colourOnDark: onDark(colour),
  ring: corners(48, 0, () => radius),
  reachMm: radius,
  path: (scale) => {
    const r = number(radius * scale);
    return `M${r} 0A${r} ${r} 0 0 1 -${r} 0A${r} ${r} 0 0 1 ${r} 0Z`;
  },
});

const COMMON: ReadonlyMap<number, SizeSymbol> = new Map([
  [0.5, disc("circle", "#0072B2", 0.55)],
  [
    0.75,
    polygon(
      "square",
      "#D55E00",
      corners(4, 45, () => 1),
    ),
  ],
  [
    1,
    polygon(
      "triangle",
      "#009E73",
      corners(3, 90, () => 1.35),
    ),
  ],
  [
    1.5,
    polygon(
      "diamond",
      "#CC79A7",
      corners(4, 0, () => 1.8),
    ),
  ],
]);

/** A plus with arms a third as wide as it is long. */
const plus = (r: number): [number, number][] => {
  const a = r / 3;
  return [
    [a, a],
    [a, r],
    [-a, r],
    [-a, a],
    [-r, a],
    [-r, -a],
    [-a, -a],
    [-a, -r],
    [a, -r],
    [a, -a],
    [r, -a],
    [r, a],
  ];
};

function otherSymbol(index: number, diameterMm: number): SizeSymbol {
  const r = Math.min(2.2, Math.max(0.75, 0.5 + 0.9 * diameterMm));
  const turned = Math.SQRT1_2;
  const shape = (name: string, points: [number, number][]) => polygon(name, OTHER_COLOUR, points);
  switch (index) {
    case 0:
      return shape(
        "triangle pointing down",
        corners(3, -90, () => r),
      );
    case 1:
      return shape("plus", plus(r));
    case 2:
      return shape(
        "pentagon",
        corners(5, 90, () => r),
      );
    case 3:
      return shape(
        "cross",
        plus(r).map(([x, y]) => [(x - y) * turned, (x + y) * turned]),
      );
    default: {
      const points = index;
      return shape(
        `star of ${points} points`,
        corners(2 * points, 90, (k) => (k % 2 === 0 ? r : 0.45 * r)),
      );
    }
  }
}
