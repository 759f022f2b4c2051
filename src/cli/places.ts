import type { Command } from "commander";
import { InputError } from "../plan/errors.ts";
import type { FoundPlace } from "../sky/places.ts";
import { type EmitOptions, emit, withOutput } from "./emit.ts";
import { wholeBetween } from "./options.ts";
import { makeTerminal } from "./terminal.ts";

interface PlacesOptions extends EmitOptions {
  readonly country?: string;
  readonly limit: number;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

export function addPlaces(program: Command): void {
  withOutput(program.command("places"))
    .description("look a place up, offline: coordinates, time zone, and what to write in a plan")
    .argument(
      "<text...>",
      "a name or its beginning, or a name with its state or country: Springfield, Missouri",
    )
    .option("--country <name>", "only places in this country (ISO code or name)")
    .option("--limit <count>", "list no more than this", wholeBetween(1, 10_000, "places"), 20)
    .option("--json", "JSON in place of a table")
    .action(async (words: readonly string[], _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<PlacesOptions>();
      const [{ findPlaces, nothingFound }, { loadGazetteer }] = await Promise.all([
        import("../sky/places.ts"),
        import("./gazetteerFile.ts"),
      ]);
      const gazetteer = loadGazetteer();
      const name = words.join(" ");
      const found = findPlaces(gazetteer, name, options.country);
      if (found.length === 0)
        throw new InputError(nothingFound(gazetteer, { name, country: options.country }));
      const shown = found.slice(0, options.limit);
      if (shown.length < found.length) {
        makeTerminal(options.quiet === true).say(
          `${shown.length} of ${found.length} places; --country or a longer name narrows them down, --limit lists more`,
        );
      }
      await emit(options.json ? `${JSON.stringify({ places: shown })}\n` : placesTable(shown), options);
    });
}

const HEAD =
  "Write `place:` and the text in braces in a plan. Latitude and longitude in degrees, north and east positive.";

/** A table to read; every column is as wide as its widest cell. */
function placesTable(places: readonly FoundPlace[]): string {
  const rows = [
    ["place", "inhabitants", "latitude", "longitude", "time zone", "in a plan"],
    ...places.map((place) => [
      place.inWords,
      place.population?.toLocaleString("en-US") ?? "unknown",
      place.latitudeDeg.toFixed(3),
      place.longitudeDeg.toFixed(3),
      place.timeZone,
      place.planText,
    ]),
  ];
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => [...row[column]!].length)));
  const toTheRight = [1, 2, 3];
  const line = (row: readonly string[]) =>
    row
      .map((cell, column) => {
        const gap = " ".repeat(widths[column]! - [...cell].length);
        return toTheRight.includes(column) ? gap + cell : cell + gap;
      })
      .join("  ")
      .trimEnd();
  return `${[HEAD, ...rows.map(line)].join("\n")}\n`;
}
