import { afterAll, describe, expect, it } from "vitest";
import type { PlannerResult } from "@/shared/schemas/planner-result";
import { runIn, scratchFolder } from "../capture";

const folder = scratchFolder();
afterAll(folder.remove);

const run = (line: string) => runIn(folder.path, "plan", ...line.split(" ").filter(Boolean));

async function planned(line: string): Promise<PlannerResult> {
  const { exitCode, stdout, stderr } = await run(`${line} --json`);
  expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: "" });
  return JSON.parse(stdout);
}

describe("grainlot plan", () => {
  // 60 complete sets, difference .55, σ_ga .5, σ_e 1: R's simulation stands in tests/fixtures/reference/design.
  it.each([
    [10, 6, 0.4],
    [20, 3, 0.58],
    [60, 1, 0.755],
  ])("60 complete sets as %i growers × %i have power %f", async (growers, sets, power) => {
    const { designs } = await planned(
      `--arms 6 --boxes 6 --growers ${growers} --sets ${sets} --difference .55 --sd-grower-arm .5 --sd-residual 1`,
    );
    expect(designs[0]!.kind).toBe("complete");
    expect(designs[0]!.groups[0]!.growth!.power).toBeCloseTo(power, 2);
  });

  it("reads a factorial, a range of boxes, groups, deviations and the shares of clean growth", async () => {
    const result = await planned(
      "--grains rice,rye --ratios .8,1.1 --boxes 3-4 --group dry:12:2 --group mild:30 --difference 1 --earlier " +
        "--sd-grower .4 --sd-grower-arm .3 --sd-outing .2 --sd-residual .9 --clean-share .3 --clean-difference .25 " +
        "--growth-shares .2,.5,.2,.1 --odds-ratio 2.427829 --meet-again .3 --margin .6 --level .9 --seed other",
    );
    expect(result).toMatchObject({
      arms: 4,
      level: 0.9,
      margin: 0.6,
      deviations: { grower: 0.4, growerArm: 0.3, outing: 0.2, residual: 0.9 },
      deviationsFrom: "earlier-trial",
      seed: "other",
    });
    expect(new Set(result.designs.map(({ boxesPerSet }) => boxesPerSet))).toEqual(new Set([3, 4]));
    const [dry, mild] = result.designs[0]!.groups;
    expect(dry).toMatchObject({ group: "dry", growers: 12, setsPerGrower: 2 });
    expect(mild).toMatchObject({ group: "mild", growers: 30, setsPerGrower: 1 });
    expect(dry!.cleanTake!.runs).toBeGreaterThan(0);
    expect(result.ordinal).toHaveLength(2);
  });

  it("writes a report with designs, a curve and advice", async () => {
    const line = "--arms 12 --boxes 3 --growers 40 --sets 2 --difference .55";
    const { exitCode, stdout, stderr } = await run(line);
    expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: "" });
    expect(stdout).toMatch(/12 recipes, sets of 3 boxes/);
    expect(stdout).toMatch(/balanced incomplete, 3 boxes +0\.\d{4} +0\.7273/);
    expect(stdout).toMatch(/ 40 {2}█+ +\d+ %/);
    expect(stdout).toMatch(/12 recipes are too many for 40 growers; \d+ would do\./);
    expect(Math.max(...stdout.split("\n").map(({ length }) => length))).toBeLessThan(200);
    expect((await run(line)).stdout).toBe(stdout);
  });

  it("explains itself", async () => {
    const { exitCode, stdout } = await run("--help");
    expect(exitCode).toBe(0);
    expect(stdout).toContain("--sd-grower-arm");
  });
});

describe("grainlot plan refuses, with code 2, nothing on stdout and a word on what to do", () => {
  const whole = "--arms 6 --boxes 3 --growers 20 --difference .5";

  it.each([
    ["", /how many recipes/],
    ["", /how many boxes/],
    ["", /how many growers/],
    ["", /which difference/],
    ["--arms 1 --boxes 3 --growers 20 --difference .5", /from 2 to 24 recipes/],
    ["--arms 25 --boxes 3 --growers 20 --difference .5", /from 2 to 24 recipes/],
    ["--grains rice --ratios 1 --boxes 3 --growers 20 --difference .5", /from 2 to 24 recipes/],
    ["--grains rice --boxes 3 --growers 20 --difference .5", /--grains needs --ratios/],
    ["--grains rice,rice --ratios 1,2 --boxes 3 --growers 20 --difference .5", /stands there twice/],
    ["--arms 6 --boxes 13 --growers 20 --difference .5", /from 2 to 12 boxes/],
    ["--arms 6 --boxes 1 --growers 20 --difference .5", /from 2 to 12 boxes/],
    ["--arms 6 --boxes 5-3 --growers 20 --difference .5", /fewest come first/],
    ["--arms 6 --boxes few --growers 20 --difference .5", /--boxes few is not a number/],
    ["--arms 6 --boxes 3 --growers 0 --difference .5", /without one it can't answer anything/],
    ["--arms 6 --boxes 3 --group dry:0:2 --difference .5", /without one it can't answer anything/],
    ["--arms 6 --boxes 3 --group dry --difference .5", /NAME:GROWERS:SETS/],
    ["--arms 6 --boxes 3 --group a:9:1 --group a:9:1 --difference .5", /same name/],
    ["--arms 6 --boxes 3 --growers 20 --difference 0", /--difference is above 0/],
    ["--arms 6 --boxes 3 --growers 20 --difference 0,5", /decimal point/],
    [`${whole} --sd-residual 0`, /standard deviation is above 0/],
    [`${whole} --sd-grower-arm -0.5`, /standard deviation is above 0/],
    [`${whole} --margin 5`, /--margin is above 0 and at most 4/],
    [`${whole} --level 95`, /for 95 % write 0\.95/],
    [`${whole} --clean-share .3`, /belong together/],
    [`${whole} --clean-share .8 --clean-difference .3`, /together stay below 1/],
    [`${whole} --growth-shares .5,.4 --odds-ratio 2`, /add up to 1/],
    [`${whole} --meet-again 2`, /share from 0 to 1/],
    [`${whole} --sets 1.5`, /whole number/],
    [`${whole} --jsno`, /--jsno/],
    [`${whole} rest`, /rest/],
    [
      "--arms 24 --boxes 2 --growers 3 --difference .5",
      /3 sets can't link all recipes; at least 23 are needed/,
    ],
  ])("%s", async (line, message) => {
    const { exitCode, stdout, stderr } = await run(line);
    expect({ exitCode, stdout }).toEqual({ exitCode: 2, stdout: "" });
    expect(stderr).toMatch(message);
  });
});
