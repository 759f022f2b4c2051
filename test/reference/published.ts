/**
 * Published check values, transcribed with their sources. In a `source`, "recomputed" means that
 * scripts/reference/check_published.py gets the numbers again by other means; "computed" that they were never published.
 */
export * from "./published/erfa.ts";
export * from "./published/fibre.ts";
export * from "./published/meeus.ts";
export { dmsDeg, hmsDeg } from "./published/sexagesimal.ts";
export * from "./published/sky.ts";
export * from "./published/snyder.ts";
export * from "./published/stars.ts";
export * from "./published/time.ts";
