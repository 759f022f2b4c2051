import { foldName } from "../plan/nearestName.ts";

/** Letters that Unicode does not take apart into a plain letter and an accent. */
const PLAIN: Readonly<Record<string, string>> = {
  ł: "l",
  ø: "o",
  đ: "d",
  ð: "d",
  ı: "i",
  ħ: "h",
  ß: "ss",
  æ: "ae",
  œ: "oe",
  þ: "th",
};

/**
 * A place's name as it is compared: as `foldName` has it, and also without full stops, apostrophes and the like, and
 * with Łódź as lodz, Tromsø as tromso. Never holds a line break or `|`, which part the names in the compiled file.
 */
export function foldPlaceName(name: string): string {
  const folded = foldName(name);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: all of ASCII, which has none of the letters above
  const plain = /^[\x00-\x7f]*$/.test(folded)
    ? folded
    : folded.replace(/[łøđðıħßæœþ]/g, (letter) => PLAIN[letter]!).normalize("NFC");
  return plain
    .replace(/[.'"“”„`ʻʿ|]/g, "")
    .replace(/\s+/g, " ")
    .trim();
}
