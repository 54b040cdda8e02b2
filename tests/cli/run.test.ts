import { afterAll, describe, expect, it } from "vitest";
import { version } from "../../package.json";
import { runIn, scratchFolder } from "./capture";

const folder = scratchFolder();
afterAll(folder.remove);

describe("grainlot", () => {
  it("tells its version and its usage on stdout", async () => {
    expect(await runIn(folder.path, "--version")).toEqual({
      exitCode: 0,
      stdout: `${version}\n`,
      stderr: "",
    });
    const help = await runIn(folder.path, "--help");
    expect(help.exitCode).toBe(0);
    expect(help.stdout).toContain(
      "grainlot pool FILE.csv [--json] [--random outing,grower,grower-arm] [--level 0.95]",
    );
    expect((await runIn(folder.path, "pool", "--help")).stdout).toContain("outcome");
  });

  it.each([
    [[], /Usage/],
    [["pol"], /no command "pol"/],
    [["pool"], /which file/],
    [["pool", "a.csv", "b.csv"], /one file at a time/],
    [["pool", "a.csv", "--jsno"], /--jsno/],
    [["pool", "a.csv", "--level", "95"], /--level 95 .* write 0\.95/],
    [["pool", "a.csv", "--level", "high"], /--level high/],
    [["pool", "a.csv", "--seed", "x"], /--seed x/],
    [["pool", "a.csv", "--margin", "0"], /--margin 0 .* above 0/],
    [["pool", "a.csv", "--random", "outing,recipe"], /--random outing,recipe .* grower-arm/],
    [["pool", "a.csv", "--random", ""], /--random {2}is not a list/],
    [["pool", "a.csv", "--reference"], /--reference/],
  ])("refuses %j with code 2 and a word on what to do", async (argv, message) => {
    const { exitCode, stdout, stderr } = await runIn(folder.path, ...argv);
    expect(exitCode).toBe(2);
    expect(stdout).toBe("");
    expect(stderr).toMatch(message);
  });
});
