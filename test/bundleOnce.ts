import { execFileSync } from "node:child_process";

/** The command line is tested as people run it: bundled. Type declarations take long and are not needed here. */
export default function bundleOnce(): void {
  execFileSync(process.execPath, ["scripts/build.mjs", "--no-types"], { stdio: "inherit" });
}
