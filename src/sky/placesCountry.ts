import { once } from "./once.ts";
import { foldPlaceName } from "./placesFold.ts";

/** Names in use that the platform's English list does not have, or has otherwise. */
const ALSO: Readonly<Record<string, string>> = {
  uk: "GB",
  "great britain": "GB",
  britain: "GB",
  usa: "US",
  "united states of america": "US",
  america: "US",
  holland: "NL",
  "the netherlands": "NL",
  "czech republic": "CZ",
  turkey: "TR",
  burma: "MM",
  "ivory coast": "CI",
  swaziland: "SZ",
  macedonia: "MK",
  "bosnia and herzegovina": "BA",
  "russian federation": "RU",
  "democratic republic of the congo": "CD",
  "republic of the congo": "CG",
  congo: "CG",
  vatican: "VA",
  palestine: "PS",
  "hong kong": "HK",
  macau: "MO",
  macao: "MO",
  korea: "KR",
  "east timor": "TL",
  "trinidad and tobago": "TT",
};

/** People write their country as they call it at home. */
const HOME_LANGUAGES = ["da", "de", "es", "fi", "fr", "it", "nb", "nl", "pl", "pt", "sv"];

const english = once(() => new Intl.DisplayNames(["en"], { type: "region", fallback: "code" }));

/** `CL` to `Chile`, in English. */
export const countryName = (code: string): string => english().of(code) ?? code;

const codesByLanguage = new Map<string, ReadonlyMap<string, string>>();

function codesIn(language: string, codes: readonly string[]): ReadonlyMap<string, string> {
  const known = codesByLanguage.get(language);
  if (known !== undefined) return known;
  const names = new Intl.DisplayNames([language], { type: "region", fallback: "code" });
  const map = new Map(codes.map((code) => [foldPlaceName(names.of(code) ?? code), code]));
  codesByLanguage.set(language, map);
  return map;
}

/** The code of a country by its ISO 3166 code or its English name; or null. */
export function findCountry(text: string, codes: readonly string[]): string | null {
  const upper = text.trim().toUpperCase();
  if (codes.includes(upper)) return upper;
  const folded = foldPlaceName(text);
  return codesIn("en", codes).get(folded) ?? (Object.hasOwn(ALSO, folded) ? ALSO[folded]! : null);
}

/** The code of a country by its name in another large language of Europe; or null. Slower, so the last thing to try. */
export function findCountryAtHome(text: string, codes: readonly string[]): string | null {
  const folded = foldPlaceName(text);
  for (const language of HOME_LANGUAGES) {
    const code = codesIn(language, codes).get(folded);
    if (code !== undefined) return code;
  }
  return null;
}
