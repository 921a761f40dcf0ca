import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    setupFiles: ["tests/setup.ts"],
    testTimeout: 30_000,
    // one lane per core of the smallest machine we promise to test on
    maxWorkers: 2,
    // loading the test libraries anew for every file costs three times the processor time of the tests; no file leaves anything behind
    isolate: false,
  },
});
