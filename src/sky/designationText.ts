import { foldName } from "../plan/nearestName.ts";
import { CONSTELLATION_NAMES } from "./constellationNames.ts";

/** Greek letters with their English name and the three-letter form in use in machine-readable catalogues. */
const GREEK: readonly (readonly [letter: string, ...spelled: string[]])[] = [
  ["α", "alpha", "alp", "alf"],
  ["β", "beta", "bet"],
  ["γ", "gamma", "gam"],
  ["δ", "delta", "del"],
  ["ε", "epsilon", "eps"],
  ["ζ", "zeta", "zet"],
  ["η", "eta"],
  ["θ", "theta", "the", "tet"],
  ["ι", "iota", "iot"],
  ["κ", "kappa", "kap"],
  ["λ", "lambda", "lam"],
  ["μ", "mu"],
  ["ν", "nu"],
  ["ξ", "xi", "ksi"],
  ["ο", "omicron", "omi"],
  ["π", "pi"],
  ["ρ", "rho"],
  ["σ", "sigma", "sig"],
  ["τ", "tau"],
  ["υ", "upsilon", "ups"],
  ["φ", "phi"],
  ["χ", "chi", "khi"],
  ["ψ", "psi"],
  ["ω", "omega", "ome"],
];
const LETTER_OF = new Map(
  GREEK.flatMap(([letter, ...spelled]) => spelled.map((each) => [each, letter] as const)),
);

const CODE_OF = new Map(
  CONSTELLATION_NAMES.flatMap(([code, , genitive]) => [
    [foldName(code), code] as const,
    [foldName(genitive), code] as const,
  ]),
);

/**
 * A designation in the form that the table of designations uses: "alf02 Centauri" gives "α2 Cen", "V0822 cas" "V822 Cas",
 * "hd128620" "HD 128620". Letters keep their case. A text of another form comes back as typed.
 * @param spelledGreek  whether "mu" stands for the letter μ; without it, it stays as typed (MU is also a variable's name)
 */
export function canonicalDesignation(text: string, spelledGreek: boolean): string {
  const numbered = /^\s*(hd|gj)\s*0*(\d.*?)\s*$/i.exec(text);
  if (numbered) return `${numbered[1]!.toUpperCase()} ${numbered[2]!.toUpperCase()}`;

  const words = text
    .normalize("NFKC")
    .trim()
    .split(/[\s-]+/); // NFKC: superscript digits become digits
  for (const tail of [2, 1]) {
    const code = words.length > tail ? CODE_OF.get(foldName(words.slice(-tail).join(" "))) : undefined;
    if (code === undefined) continue;
    const head = words.slice(0, -tail).join("");
    const [, letters = "", digits = ""] = /^(\D*)(\d*)$/.exec(head) ?? [];
    const number = digits.replace(/^0+/, "");
    const greek = spelledGreek ? LETTER_OF.get(letters.toLowerCase()) : undefined;
    const isGreek = /^\p{Script=Greek}$/u.test(letters);
    return letters + digits === head
      ? `${greek ?? (isGreek ? letters.toLowerCase() : letters)}${number} ${code}`
      : text;
  }
  return text.trim();
}
