/** `Vega`, `Vega and Deneb`, `Vega, Deneb and Altair`; of too many the first and how many more. */
export function listed(names: readonly string[], most = Number.POSITIVE_INFINITY): string {
  if (names.length < 2) return names.join("");
  return names.length > most
    ? `${names.slice(0, most).join(", ")} and ${names.length - most} more`
    : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}
