/**
 * Lines that words run on over. They are measured word by word: to set every longer line anew took most of a drawing's time.
 * @param widthOf  of a word, in the unit of `space` and `room`
 * @returns one line for a text without words; a word wider than the room stands alone
 */
export function wrapWords(
  text: string,
  widthOf: (word: string) => number,
  space: number,
  room: number,
): string[] {
  const rows: string[] = [];
  let filled = 0;
  for (const word of text.split(/\s+/u)) {
    const width = widthOf(word);
    if (rows.length > 0 && filled + space + width <= room) {
      rows[rows.length - 1] += ` ${word}`;
      filled += space + width;
    } else {
      rows.push(word);
      filled = width;
    }
  }
  return rows;
}
