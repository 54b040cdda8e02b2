import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL("./", import.meta.url));

/**
 * Three projects. `unit` needs nothing but this process; `database` gets a real PostgreSQL from its global setup,
 * and `browser` a real server on one, with the demo loaded, and a browser.
 */
export default defineConfig({
  resolve: { alias: { "@/": root } },
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: "unit",
          include: ["tests/**/*.test.ts", "tests/**/*.test.tsx"],
          exclude: ["tests/database/**", "tests/e2e/**"],
          testTimeout: 30_000,
        },
      },
      {
        extends: true,
        test: {
          name: "database",
          include: ["tests/database/**/*.test.ts"],
          globalSetup: ["tests/harness/database-setup.ts"],
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
      {
        extends: true,
        test: {
          name: "browser",
          include: ["tests/e2e/**/*.test.ts"],
          globalSetup: ["tests/harness/app-setup.ts"],
          fileParallelism: false,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
