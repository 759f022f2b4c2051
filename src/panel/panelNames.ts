import { listed } from "../plan/listed.ts";

/** Who has more panels with the same fault needs no list of them. */
const MOST_NAMED = 60;

/** `panel A1`, `panels A1, A2 and A3`. */
export const panelNames = (ids: readonly string[]): string =>
  `panel${ids.length === 1 ? "" : "s"} ${listed(ids, MOST_NAMED)}`;
