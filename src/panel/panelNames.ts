/** Who has more panels with the same fault needs no list of them. */
const MOST_NAMED = 60;

/** `panel A1`, `panels A1, A2 and A3`. */
export function panelNames(ids: readonly string[]): string {
  if (ids.length === 1) return `panel ${ids[0]}`;
  if (ids.length > MOST_NAMED)
    return `panels ${ids.slice(0, MOST_NAMED).join(", ")} and ${ids.length - MOST_NAMED} more`;
  return `panels ${ids.slice(0, -1).join(", ")} and ${ids.at(-1)}`;
}
