import { execFile } from "node:child_process";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { reference } from "../engine/statistics/reference";
import { csvOf, runIn, scratchFolder } from "./capture";

const folder = scratchFolder();
afterAll(folder.remove);
const columns = ["grower", "outing", "band", "arm", "outcome", "status"];
const node = (...argv: string[]) => promisify(execFile)(process.execPath, argv, { cwd: folder.path });

describe("the bundled command line", () => {
  beforeAll(async () => {
    await build({
      entryPoints: [fileURLToPath(new URL("../../lib/cli/main.ts", import.meta.url))],
      bundle: true,
      platform: "node",
      format: "cjs",
      outfile: `${folder.path}/grainlot.cjs`,
      logLevel: "silent",
    });
    folder.write("trial.csv", csvOf(columns, reference.trials[0]!.rows));
  });

  it("answers as in this process, from the folder the user stands in", async () => {
    const { stdout } = await node("grainlot.cjs", "pool", "trial.csv", "--json");
    expect(stdout).toBe((await runIn(folder.path, "pool", "trial.csv", "--json")).stdout);
  });

  it("ends with code 2 on a refusal", async () => {
    await expect(node("grainlot.cjs", "pool", "missing.csv")).rejects.toMatchObject({ code: 2, stdout: "" });
  });
});
