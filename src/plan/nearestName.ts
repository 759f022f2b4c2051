/**
 * A name as it is compared: lower case, no accents, hyphens and runs of space as one space, one kind of apostrophe.
 * "Bélénos" and "belenos", "Barnard’s  Star" and "barnard's star" fold to the same text.
 */
export function foldName(name: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: all of ASCII, which has no accents to take off
  const plain = /^[\x00-\x7f]*$/.test(name)
    ? name
    : name.normalize("NFD").replace(/\p{M}/gu, "").replace(/[’‘ʼ]/g, "'");
  return plain
    .toLowerCase()
    .replace(/[\s\u2010-\u2015-]+/g, " ")
    .trim();
}

/**
 * The known name nearest to what was typed, for "did you mean"; null when nothing is near enough to be a slip.
 * A slip is a letter missing, added or changed, or two neighbours swapped (optimal string alignment distance). Names
 * of up to two letters allow none but case, three to five letters one, six to eight two, longer ones three.
 * @param known  the first of equally near names wins
 */
export function nearestName(seen: string, known: readonly string[]): string | null {
  const typed = foldName(seen);
  let allowed = typed.length < 3 ? 0 : Math.min(3, Math.floor(typed.length / 3));
  let nearest: string | null = null;
  for (const name of known) {
    const folded = foldName(name);
    if (Math.abs(folded.length - typed.length) > allowed) continue;
    const slips = slipsBetween(typed, folded);
    if (slips === 0) return name;
    if (slips > allowed) continue;
    nearest = name;
    allowed = slips - 1;
  }
  return nearest;
}

function slipsBetween(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        least = Math.min(least, beforeLast[j - 2]! + 1);
      }
      row.push(least);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length]!;
}
