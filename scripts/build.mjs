// Bundles the command line and the library into dist/, with type declarations and the notices of what is bundled.
// One bundle keeps a command's start quick: `holes` opens a handful of files instead of several hundred.
import { execFileSync } from "node:child_process";
import { chmodSync, copyFileSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";

rmSync("dist", { recursive: true, force: true });

const shared = {
  outdir: "dist",
  bundle: true,
  platform: "node",
  target: "node20",
  minify: true,
  external: ["sharp"], // native
  // Of a font library: what unpacks WOFF2, half as large as all else that writes a PDF. The shipped font is plain TrueType.
  alias: { "brotli/decompress.js": "./scripts/noWoff2.cjs" },
  metafile: true,
  legalComments: "none",
};
const version = JSON.stringify(JSON.parse(readFileSync("package.json", "utf8")).version);
const results = [
  await build({
    ...shared,
    entryPoints: { cli: "src/cli/main.ts" },
    format: "cjs",
    supported: { "dynamic-import": false }, // becomes require(), which a script from the code cache has
    outExtension: { ".js": ".cjs" },
    define: { LACUNAR_VERSION: version, "import.meta.url": "__lacunarUrl" },
  }),
  await build({
    ...shared,
    entryPoints: { index: "src/index.ts" },
    format: "esm",
    // yaml is CommonJS inside: it calls require() for Node's own modules.
    banner: { js: 'import{createRequire as __cr}from"node:module";const require=__cr(import.meta.url);' },
  }),
];
// The launcher reads the bundle as Latin-1, which is quicker. esbuild escapes all other signs in strings; what it leaves is
// in patterns (literals and String.raw), where an escape means the same.
const bundle = readFileSync("dist/cli.cjs", "utf8");
writeFileSync(
  "dist/cli.cjs",
  bundle.replace(/[^\0-\x7f]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`),
);
copyFileSync("scripts/launcher.cjs", "dist/lacunar.cjs");
chmodSync("dist/lacunar.cjs", 0o755);
execFileSync(process.execPath, ["scripts/makeCodeCache.cjs"], { stdio: "inherit" });

if (!process.argv.includes("--no-types")) {
  execFileSync(
    process.execPath,
    [
      "node_modules/typescript/bin/tsc",
      "--noEmit",
      "false",
      "--emitDeclarationOnly",
      "--declaration",
      "--outDir",
      "dist/types",
      "--rootDir",
      "src",
      "-p",
      "scripts/tsconfig.build.json",
    ],
    { stdio: "inherit" },
  );
}

const packages = new Set();
for (const input of results.flatMap((result) => Object.keys(result.metafile.inputs))) {
  const name = /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(input)?.[1];
  if (name) packages.add(name);
}
const notices = [...packages].sort().map((name) => {
  const its = JSON.parse(readFileSync(join("node_modules", name, "package.json"), "utf8"));
  return `${name} ${its.version}\n\n${licenceOf(join("node_modules", name), its)}\n`;
});
if (process.argv.includes("--sizes")) {
  for (const [file, output] of results.flatMap((result) => Object.entries(result.metafile.outputs)))
    console.log(
      output.bytes,
      file,
      Object.entries(output.inputs)
        .sort((a, b) => b[1].bytesInOutput - a[1].bytesInOutput)
        .slice(0, 3)
        .map(([name, part]) => `${name} ${part.bytesInOutput}`)
        .join(", "),
    );
}
// opentype.js carries this one inside its own bundle, without a package of its own beside it.
notices.push(
  "tiny-inflate, within opentype.js\n\nMIT License\n\nCopyright (c) 2015-present Devon Govett\n\nThe terms are those of the MIT License above.\n",
);
writeFileSync("dist/THIRD-PARTY.txt", notices.join(`\n${"-".repeat(80)}\n\n`));

/**
 * The licence file of a package, or the notice at the head of its source where it ships no such file, or the text of the licence that its
 * package.json names with the author it names.
 */
function licenceOf(folder, { name, main, license, author }) {
  const file = readdirSync(folder).find((each) => /^licen[cs]e/i.test(each));
  if (file) return readFileSync(join(folder, file), "utf8").trim();
  const head = /\/\*[\s\S]*?\*\//g;
  const notice = readFileSync(join(folder, main), "utf8")
    .match(head)
    ?.find((comment) => /copyright (\(c\)|\d)|licen[cs]ed under|permission is hereby/i.test(comment));
  if (!notice && license === "MIT" && typeof author === "string")
    return `Copyright (c) ${author}\n\n${mitText()}`;
  if (!notice) throw new Error(`${name} carries no licence text: its notice cannot be passed on`);
  return notice;
}

/** The MIT licence without its line of copyright, as a package beside this one ships it. */
function mitText() {
  const text = readFileSync("node_modules/pdfkit/LICENSE", "utf8").trim();
  return text.slice(text.indexOf("Permission is hereby granted"));
}
