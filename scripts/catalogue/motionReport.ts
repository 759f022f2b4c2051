// data/proper-motion-report.tsv: every row that did not simply fit, and every bright star that goes without a motion.
import { type How, type Joined, type Left, masPerYr } from "./joinMotions.ts";
import type { SourceMotion, SourceStar } from "./sources.ts";

const NAKED_EYE_CENTI_MAG = 600;

export function motionReport(stars: readonly SourceStar[], joined: readonly Joined[], left: readonly Left[]) {
  const lines: string[] = [];
  for (const { motion, star, how, separationArcsec } of joined) {
    if (how === "place alone" || how === "one component of two")
      lines.push(line("joined", how, motion, star, separationArcsec));
  }
  for (const { motion, star, separationArcsec, why } of left) {
    lines.push(line("left", why, motion, star, separationArcsec));
  }
  const moving = new Set(joined.map(({ star }) => star.hip));
  const nakedEye = stars.filter((star) => star.vCentiMag <= NAKED_EYE_CENTI_MAG);
  for (const star of nakedEye) {
    if (!moving.has(star.hip)) lines.push(line("star at zero", "to V 6, no row fits", null, star, null));
  }
  const by = (how: How): number => joined.filter((each) => each.how === how).length;
  const yearly = joined.map(({ motion }) => Math.hypot(masPerYr(motion).raCosDec, masPerYr(motion).dec));
  const header = "what\twhy\tline\tfk5\thr\tv_row\thip\tv_star\tseparation_arcsec";
  return {
    tsv: `${header}\n${lines.join("\n")}\n`,
    rows: lines.length,
    counts: {
      joined: joined.length,
      byNumber: by("number"),
      byPlaceAndMagnitude: by("place and magnitude"),
      byPlaceAlone: by("place alone"),
      asOneComponentOfTwo: by("one component of two"),
      left: left.length,
      leftAsAmbiguous: left.filter(({ why }) => why.startsWith("ambiguous")).length,
      starsToV6: nakedEye.length,
      starsToV6Moving: nakedEye.filter((star) => moving.has(star.hip)).length,
      fasterThan200MasPerYr: yearly.filter((each) => each > 200).length,
      fasterThan1000MasPerYr: yearly.filter((each) => each > 1000).length,
    },
  };
}

function line(
  what: string,
  why: string,
  motion: SourceMotion | null,
  star: SourceStar | null,
  separationArcsec: number | null,
): string {
  return [
    what,
    why,
    motion?.line ?? "",
    motion?.fk5 ?? "",
    motion?.hr ?? "",
    motion ? (motion.vCentiMag / 100).toFixed(1) : "",
    star?.hip ?? motion?.hip ?? "",
    star ? (star.vCentiMag / 100).toFixed(2) : "",
    separationArcsec?.toFixed(2) ?? "",
  ].join("\t");
}
