import { run } from "./run.ts";

run(process.argv.slice(2)).then((code) => {
  process.exitCode = code;
});
