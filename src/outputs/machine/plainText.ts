/** Greek letters that name stars. */
const GREEK: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries(
    "α alpha β beta γ gamma δ delta ε epsilon ζ zeta η eta θ theta ι iota κ kappa λ lambda μ mu ν nu ξ xi ο omicron π pi ρ rho σ sigma τ tau υ upsilon φ phi χ chi ψ psi ω omega"
      .split(" ")
      .reduce<Record<string, string>>((all, word, i, words) => {
        if (i % 2 === 0) all[word] = words[i + 1]!;
        return all;
      }, {}),
  ),
);

/** Printable ASCII: Greek letters by name, accents dropped, all else that has no such sign as a question of nothing. */
export const asciiText = (text: string): string =>
  text
    .replace(/[α-ω]/gu, (letter) => GREEK[letter] ?? "")
    .normalize("NFKD")
    .replace(/[^ -~]/g, "");

/**
 * For a comment in parentheses: none within, and none of the signs that controllers act on wherever they stand
 * (% of the tape, ! ? ~ of a stream, ; of another kind of comment).
 */
export const commentText = (text: string): string =>
  asciiText(text)
    .replace(/[()[\]{}]/g, " ")
    .replace(/;/g, ",")
    .replace(/[%!?~#$"\\]/g, " ")
    .replace(/ +/g, " ")
    .replace(/ (?=[,.:])/g, "")
    .trim();

/** A bit in words: some are fractions of an inch. */
export const bitWords = (bitMm: number): string => `${Number(bitMm.toFixed(2))} mm`;

/** Words in lines no longer than so many signs. */
export function wrapped(text: string, most: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= most)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
