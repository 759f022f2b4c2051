import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { lacunar, scratch } from "./lacunar.ts";

const root = new URL("../../", import.meta.url);
const folder = scratch();

/** The commands of a section of the README, in order, as the words a POSIX shell makes of them. */
function commandsUnder(heading: string): string[][] {
  const readme = readFileSync(new URL("README.md", root), "utf8");
  const section = readme.slice(readme.indexOf(`## ${heading}\n`)).split("\n## ")[0]!;
  const fences = [...section.matchAll(/```sh\n([\s\S]*?)```/g)].map(([, body]) => body!);
  return fences
    .flatMap((body) => body.trim().split("\n"))
    .map((line) => [...line.matchAll(/'([^']*)'|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare!));
}

it("the anniversaries of the README can be walked as written, and draw the pictures shown there", () => {
  const commands = commandsUnder("Three anniversaries");
  expect(commands.length).toBeGreaterThan(11);
  for (const [program, ...words] of commands) {
    expect(program).toBe("lacunar");
    const { code, err } = lacunar(words, { cwd: folder });
    expect(code, `${words.join(" ")}: ${err}`).toBe(0);
  }
  for (const name of ["kyoto", "nairobi", "montreal"]) {
    const drawn = readFileSync(join(folder, `${name}.png`));
    expect(drawn.equals(readFileSync(new URL(`scripts/demo/walk/${name}.png`, root))), name).toBe(true);
  }
});
