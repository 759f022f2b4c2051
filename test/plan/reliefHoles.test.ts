import { describe, expect, it } from "vitest";
import { planWith } from "./testPlan.ts";

const refused = (frame: Record<string, unknown>): string => {
  try {
    planWith({ frame: { batten: { width: 38, depth: 19 }, ...frame } });
  } catch (error) {
    if (error instanceof Error) return `${error.name} ${error.message}`;
  }
  return "";
};
const bored = (diameter: number, width = 38, brightest = 12) =>
  refused({ batten: { width, depth: 19 }, bored: { brightest, diameter } });

describe("a relief hole", () => {
  // By hand: the thickest fibre's bit is 1.65 (AND10387 for 1.5 mm fibre), and 1 mm more; 38 less 3 mm on either side is 32.
  it("is wider than the widest bit and leaves wood beside it", () => {
    expect(bored(2.6)).toMatch(
      /InputError.*frame\.bored\.diameter: 2\.6 mm is too narrow: a hole of 1\.65 mm wants .* 1 mm wider; write 2\.65mm to 32mm/,
    );
    expect(bored(2.65)).toBe("");
    expect(bored(32)).toBe("");
    expect(bored(33)).toMatch(
      /InputError.*frame\.bored\.diameter: 33 mm is too wide: .*write 2\.65mm to 32mm/,
    );
    expect(bored(33, 39)).toBe("");
  });

  it("has no place in a batten of 8 mm, and matters to no one where no star may sit on a batten", () => {
    expect(bored(2, 8)).toMatch(
      /InputError.*leaves 2 mm, .*take battens of 8\.65 mm or more, or leave out frame\.bored/,
    );
    expect(bored(100, 8, 0)).toBe("");
  });
});

describe("the pitch of screws", () => {
  it("is 40 mm or more", () => {
    expect(refused({ screws: { pitch: 0.1 } })).toMatch(
      /InputError.*frame\.screws\.pitch: .*write 40mm or more/,
    );
    expect(refused({ screws: { pitch: 39.9 } })).not.toBe("");
    expect(refused({ screws: { pitch: 40 } })).toBe("");
  });
});
