import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL("./", import.meta.url));

/** Two projects: `unit` needs nothing but this process; `database` gets a real PostgreSQL from its global setup. */
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
    ],
  },
});
