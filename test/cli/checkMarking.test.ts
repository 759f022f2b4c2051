import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { BASE_PLAN } from "../plan/testPlan.ts";
import { lacunar, scratch } from "./lacunar.ts";

it("check: warns, with the key, of the pictures that make then refuses as too coarse", () => {
  const folder = scratch();
  const path = join(folder, "coarse.json");
  // A room of 2.4 x 1.8 m on 640 x 640 pixels: over 3.7 mm each, since words and margins take some.
  writeFileSync(path, JSON.stringify({ ...BASE_PLAN, marking: { pixels: [640, 640] } }));
  const { code, out } = lacunar(["check", path, "--json"]);
  expect(code).toBe(0);
  const told = (JSON.parse(out).warnings as string[]).filter((one) => one.startsWith("marking.coarsest: "));
  expect(told).toHaveLength(1);
  const made = lacunar(["make", path, "-o", join(folder, "out")]);
  expect(made.code).toBe(1);
  expect(made.err).toContain(told[0]!.slice(told[0]!.indexOf("marking A1")));
}, 60_000);
