import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["test/**/*.test.ts"],
    globalSetup: ["test/bundleOnce.ts"],
    testTimeout: 60_000,
  },
});
