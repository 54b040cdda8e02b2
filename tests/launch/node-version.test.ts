import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { nodeVersionProblem } from "@/lib/launch/node-version.mjs";
import { root } from "../harness/root";

it.each(["20.19.0", "20.20.2", "22.12.0", "22.99.1", "24.0.0", "25.1.0", "30.0.0"])(
  "runs on Node %s",
  (version) => {
    expect(nodeVersionProblem(version)).toBeNull();
  },
);

it.each(["12.22.0", "18.20.8", "20.18.9", "21.7.3", "22.11.0", "23.11.0"])(
  "refuses Node %s in one line",
  (version) => {
    const problem = nodeVersionProblem(version);
    expect(problem).toContain(version);
    expect(problem).toContain("Install");
    expect(problem).not.toContain("\n");
  },
);

it("agrees with package.json", () => {
  const { engines } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  expect(engines.node).toBe("^20.19.0 || ^22.12.0 || >=24.0.0");
});
