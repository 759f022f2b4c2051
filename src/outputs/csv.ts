/** A cell: text, a number already rounded with the decimals to show, or nothing. */
export type Cell = string | null;

/**
 * Lines of comma-separated values: CRLF ends, one header line, quotes where needed (RFC 4180, October 2005).
 */
export function csvText(header: readonly string[], rows: Iterable<readonly Cell[]>): string {
  const lines = [header.join(",")];
  for (const row of rows) lines.push(row.map(cellText).join(","));
  return `${lines.join("\r\n")}\r\n`;
}

const cellText = (cell: Cell): string => {
  if (cell === null) return "";
  return /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
};

/** Fixed decimals; never "-0.00". */
export function fixed(value: number | null, decimals: number): Cell {
  if (value === null) return null;
  const text = value.toFixed(decimals);
  return /^-0\.?0*$/.test(text) ? text.slice(1) : text;
}

/** As short as it is exact: 0.75, 1, 1.65. */
export const shortest = (value: number): string => String(value);
