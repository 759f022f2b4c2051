import { describe, expect, it } from "vitest";
import { blackBodyXy, temperatureOfBvK, tintedLuminance, tintOfBv } from "../../src/render/starColour.ts";

/** Planck's law seen through the CIE 1931 observer, as fitted by Wyman, Sloan and Shirley 2013, JCGT 2(2), eq. 4 (from memory). */
function planckXy(temperatureK: number): [number, number] {
  const lobe = (nm: number, middle: number, below: number, above: number): number =>
    Math.exp(-0.5 * ((nm - middle) / (nm < middle ? below : above)) ** 2);
  let [x, y, z] = [0, 0, 0];
  for (let nm = 360; nm <= 830; nm++) {
    const power = 1 / (nm ** 5 * (Math.exp(1.438776877e7 / (nm * temperatureK)) - 1)); // second radiation constant, nm K
    x +=
      power *
      (1.056 * lobe(nm, 599.8, 37.9, 31) +
        0.362 * lobe(nm, 442, 16, 26.7) -
        0.065 * lobe(nm, 501.1, 20.4, 26.2));
    y += power * (0.821 * lobe(nm, 568.8, 46.9, 40.5) + 0.286 * lobe(nm, 530.9, 16.3, 31.1));
    z += power * (1.217 * lobe(nm, 437, 11.8, 36) + 0.681 * lobe(nm, 459, 26, 13.8));
  }
  return [x / (x + y + z), y / (x + y + z)];
}

const linear = (value: number): number => {
  const v = value / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; // IEC 61966-2-1
};

describe("colours of stars", () => {
  it("have the temperatures of Ballesteros' formula", () => {
    // Oracle: table computed from EPL 97, 34008 (2012), to the kelvin; the Sun's 5778 K at B-V 0.65 is the paper's own check.
    const table = [
      [-0.4, 21707],
      [-0.24, 14633],
      [-0.03, 10516],
      [0, 10125],
      [0.22, 8011],
      [0.42, 6776],
      [0.65, 5778],
      [0.8, 5281],
      [1, 4743],
      [1.23, 4251],
      [1.54, 3734],
      [1.85, 3333],
      [2, 3169],
    ] as const;
    for (const [bv, kelvin] of table)
      expect(Math.abs(temperatureOfBvK(bv) - kelvin)).toBeLessThanOrEqual(0.5001);
  });

  it("lie where CIE puts illuminant A", () => {
    // CIE 015: a Planckian radiator of 2856 K has x 0.44757, y 0.40745 (from memory). Tolerance: the fit's own, 0.001.
    const [x, y] = blackBodyXy(2856);
    expect(Math.abs(x - 0.44757)).toBeLessThan(0.001);
    expect(Math.abs(y - 0.40745)).toBeLessThan(0.001);
  });

  it("follow Planck's law from 3000 to 22,000 K", () => {
    // Two fits of different kind; 0.006 is what the observer's fit may be off, a hue step that nobody sees.
    for (let kelvin = 3000; kelvin <= 22000; kelvin += 500) {
      const [x, y] = blackBodyXy(kelvin);
      const [px, py] = planckXy(kelvin);
      expect(Math.hypot(x - px, y - py)).toBeLessThan(0.006);
    }
  });

  it("all have the same luminance, the unknown too", () => {
    for (const bv of [null, -0.6, -0.4, -0.3, 0, 0.3, 0.65, 1, 1.5, 2, 5]) {
      const [r, g, b] = tintOfBv(bv);
      expect(Math.max(r, g, b)).toBeLessThanOrEqual(255);
      // Luminance weights of sRGB, ITU-R BT.709; 0.005: the published matrix has four decimals.
      const luminance = 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
      expect(Math.abs(luminance - tintedLuminance)).toBeLessThan(0.005);
    }
  });

  it("run from blue to red", () => {
    const blueness = [-0.3, 0, 0.4, 0.8, 1.2, 1.6].map((bv) => {
      const [r, , b] = tintOfBv(bv);
      return b - r;
    });
    expect([...blueness].sort((a, b) => b - a)).toEqual(blueness);
    expect(blueness[0]).toBeGreaterThan(20);
    expect(blueness.at(-1)).toBeLessThan(-60);
  });
});
