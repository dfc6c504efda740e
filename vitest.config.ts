import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    // A core each: on two cores the default would use one.
    maxWorkers: "100%",
    projects: [
      {
        test: {
          name: "unit",
          include: ["{src,truth,examples,tests,scripts,config}/**/*.test.ts"],
          exclude: ["tests/browser/**", "tests/deep/**"],
          // A guard against hanging: commands are whole processes, and several test files share two cores.
          testTimeout: 20_000,
          // PostgreSQL inside a test takes seconds to start.
          hookTimeout: 60_000,
          sequence: { groupOrder: 0 },
        },
      },
      {
        test: {
          name: "browser",
          // A guard against hanging, not a time that anything waits for: a software-drawn browser on a busy machine is slow.
          testTimeout: 30_000,
          hookTimeout: 30_000,
          include: ["tests/browser/**/*.test.ts"],
          globalSetup: ["tests/browser/startApp.ts"],
          // One page at a time: what a page says must not wait for the other core.
          fileParallelism: false,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
