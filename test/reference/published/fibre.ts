/** Magnitudes, and what four fibre diameters can say of them. */
export const fibreMagnitudes = {
  source: "Pogson's ratio (N. Pogson 1856) and light in proportion to the fibre's area; computed, recomputed",
  pogsonRatio: 2.51188643,
  fluxRatioOfMag: { 0.5: 1.58489, 1: 2.51189, 2: 6.30957, 3: 15.84893, 4: 39.81072, 5: 100 },
  diameterRatioPerMag: 1.58489,
  diametersMm: [0.5, 0.75, 1.0, 1.5],
  stepsMag: [0.8805, 0.6247, 0.8805],
  spanMag: 2.3856,
  toleranceMag: 0.00005,
} as const;

/** Whole mm and fractions: the worst fibre (+6 %) through the worst hole (0.025 under to 0.10 over the drill). */
export const fibreDrills = {
  source:
    "Fibre tolerance: maker's sheets for 1 mm, assumed for the rest; hole: AND10387 (secondary text); drill choice is the trade's practice; computed columns recomputed",
  rows: [
    { fibreMm: 0.5, largestFibreMm: 0.53, smallestDrillMm: 0.56, drillMm: 0.6, holeMm: [0.575, 0.7] },
    { fibreMm: 0.75, largestFibreMm: 0.795, smallestDrillMm: 0.82, drillMm: 0.85, holeMm: [0.825, 0.95] },
    { fibreMm: 1.0, largestFibreMm: 1.06, smallestDrillMm: 1.09, drillMm: 1.1, holeMm: [1.075, 1.2] },
    { fibreMm: 1.5, largestFibreMm: 1.59, smallestDrillMm: 1.62, drillMm: 1.65, holeMm: [1.625, 1.75] },
  ],
} as const;

export const fibreTransmission = {
  source: "Computed: 10^(-dB/m x m / 10); 0.35 dB/m is a common-practice default for white light; recomputed",
  lengthsM: [1, 2, 3, 5, 10],
  at0p35DbPerM: [0.923, 0.851, 0.785, 0.668, 0.447],
  at0p20DbPerM: [0.955, 0.912, 0.871, 0.794, 0.631],
  fiveMetresAgainstOneMag: 0.35,
  tolerance: 0.0005,
} as const;

export const fibreBundles = {
  source:
    "Computed: d sqrt(N/p), p 0.785 loose, 0.85 good, 0.907 hexagonal limit; mass for PMMA 1.19 g/cm3 (from memory); recomputed",
  rows: [
    { strands: 100, fibreMm: 0.75, bundleMm: [8.5, 8.1, 7.9] },
    { strands: 300, fibreMm: 0.75, bundleMm: [14.7, 14.1, 13.6] },
  ],
  gramsPerMetre: { 0.5: 0.23, 0.75: 0.53, 1: 0.93, 1.5: 2.1 },
  bendRadiusHandlingMm: { 0.5: 12.5, 0.75: 18.75, 1: 25, 1.5: 37.5 },
  bendRadiusFinishedMm: { 0.5: 17.5, 0.75: 26.3, 1: 35, 1.5: 52.5 },
} as const;

/** Exact by the definition of the inch, 25.4 mm. */
export const lengths = {
  source: "International inch of 1959, exactly 25.4 mm; 4 x 8 ft board 1219.2 x 2438.4 mm; worked by hand",
  rows: [
    { text: "38mm", mm: 38 },
    { text: "2.4m", mm: 2400 },
    { text: "48in", mm: 1219.2 },
    { text: "8ft", mm: 2438.4 },
    { text: "4ft", mm: 1219.2 },
    { text: "1/8in", mm: 3.175 },
    { text: "4 1/2in", mm: 114.3 },
    { text: "8' 4-1/2\"", mm: 2552.7 },
    { text: "3/4in", mm: 19.05 },
    { text: "1 1/2in", mm: 38.1 },
  ],
} as const;
