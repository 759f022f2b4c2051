"use strict";
// Runs a usual command once, then keeps what V8 compiled for it beside the bundle.
const { renameSync, writeFileSync } = require("node:fs");
const { join } = require("node:path");
const { bundle, compile, start } = require(join(__dirname, "../dist/lacunar.cjs"));

process.argv.splice(2, Number.POSITIVE_INFINITY, "holes", join(__dirname, "demo/bookshop.yaml"), "--quiet");
process.stdout.write = (_data, done) => {
  if (typeof done === "function") setImmediate(done);
  return true;
};
const script = compile();
start(script);
process.once("exit", () => {
  if (process.exitCode) return;
  writeFileSync(`${bundle}.cache.part`, script.createCachedData());
  renameSync(`${bundle}.cache.part`, `${bundle}.cache`);
});
