import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { runIn } from "../capture";
import { type DrawFolder, design, drawFolder, HEADER, LIST } from "./draw-folder";

let folder: DrawFolder;
beforeEach(() => {
  folder = drawFolder();
});
afterEach(() => folder.remove());

describe("a refusal says why, ends with code 2 and changes nothing", () => {
  const withDesign = (changes: object) =>
    folder.write("design.json", JSON.stringify({ ...design, ...changes }));

  it.each<[what: string, changes: object, message: string]>([
    ["one recipe", { arms: design.arms.slice(0, 1) }, "arms: Name at least 2 recipes"],
    ["a recipe twice", { arms: [design.arms[0], design.arms[0]] }, "arms: Two recipes have the same code."],
    [
      "a code with a blank",
      { arms: [{ code: "a b", grain: "rye" }, design.arms[0]] },
      "arms.0.code: Codes are made of",
    ],
    ["13 boxes", { boxesPerSet: { min: 2, max: 13 } }, "boxesPerSet.max: A set has 2 to 12 boxes."],
    [
      "least above most",
      { boxesPerSet: { min: 5, max: 4 } },
      "boxesPerSet: The least number of boxes is above the most.",
    ],
    ["no climate group", { climateGroups: [] }, "climateGroups: Name at least one climate group."],
    ["a share of 120 %", { meetAgainShare: 1.2 }, "meetAgainShare: Give a share from 0 to 1."],
    [
      "one staged day",
      { fetchRule: { kind: "staged", afterDays: [4] } },
      "fetchRule.afterDays: Stage 2 to 6",
    ],
    ["another form", { form: "grainlot-design/2" }, 'form: Write "grainlot-design/1".'],
    ["a member nobody knows", { boxes: 4 }, '"boxes"'],
  ])("design: %s", async (_, changes, message) => {
    withDesign(changes);
    const { exitCode, stdout, stderr } = await folder.begin();
    expect([exitCode, stdout]).toEqual([2, ""]);
    expect(stderr).toContain(`design.json: ${message.startsWith('"') ? "" : message}`);
    expect(stderr).toContain(message);
    expect(existsSync(join(folder.path, "ledger.json")) || existsSync(join(folder.path, "secret.txt"))).toBe(
      false,
    );
  });

  it.each<[what: string, line: string, message: string]>([
    [
      "one box",
      "o9,h9,mild-wet,north,1,rye oats,",
      'column 5 "boxes": The design allows 2 to 6 boxes; got "1".',
    ],
    [
      "more boxes than allowed",
      "o9,h9,mild-wet,north,7,rye oats,",
      'The design allows 2 to 6 boxes; got "7".',
    ],
    ["half a box", "o9,h9,mild-wet,north,2.5,rye oats,", 'got "2.5"'],
    ["no grain at hand", "o9,h9,mild-wet,north,4,,", 'column 6 "grains": No grain is at hand.'],
    ["a grain of no recipe", "o9,h9,mild-wet,north,4,rye spelt,", 'No recipe of the design uses "spelt".'],
    [
      "an unknown group",
      "o9,h9,tropical,north,4,rye oats,",
      'column 3 "group": "tropical" is no climate group',
    ],
    ["no household", "o9,,mild-wet,north,4,rye oats,", 'column 2 "household": "" is no code.'],
    ["a name for a household", "o9,Ana Gil,mild-wet,north,4,rye oats,", "give pseudonyms, not names"],
    ["an outing twice", "o1,h9,mild-wet,north,4,rye oats,", 'Outing "o1" already stands in line 2.'],
    ["a field too many", "o9,h9,mild-wet,north,4,rye,oats,", "The line has 8 fields, the header 7."],
  ])("outings: %s", async (_, line, message) => {
    folder.write("list.csv", `${LIST}\n${line}\n`);
    const { exitCode, stdout, stderr } = await folder.begin();
    expect([exitCode, stdout]).toEqual([2, ""]);
    expect(stderr).toContain("list.csv:5: ");
    expect(stderr).toContain(message);
    expect(readdirSync(folder.path).sort()).toEqual(["design.json", "list.csv"]);
  });

  it("outings: a grain for one recipe only", async () => {
    withDesign({ arms: [...design.arms, { code: "teff", grain: "teff" }] });
    folder.write(
      "list.csv",
      `${HEADER}\no1,h1,mild-wet,north,4,barley oats,\no2,h2,mild-wet,north,2,teff,\n`,
    );
    const { exitCode, stderr } = await folder.begin();
    expect(exitCode).toBe(2);
    expect(stderr).toContain("list.csv:3: Only one recipe can be cooked from teff");
    expect(readdirSync(folder.path).sort()).toEqual(["design.json", "list.csv"]);
  });

  it("an outing that was drawn for, another design, a wrong secret, an opened ledger, a tampered one", async () => {
    await folder.begin();
    const before = folder.read("ledger.json");
    const next = ["o9,h9,mild-wet,north,4,rye oats,"];
    const refused = async (message: string, lines: readonly string[] = next) => {
      const was = folder.read("ledger.json");
      const { exitCode, stdout, stderr } = await folder.goOn(lines);
      expect([exitCode, stdout]).toEqual([2, ""]);
      expect(stderr).toContain(message);
      expect(folder.read("ledger.json")).toBe(was);
      expect(existsSync(join(folder.path, "ledger.json.new"))).toBe(false);
    };
    await refused("lists no outing", []);
    await refused('Outing "o2" was drawn for already (draw 2).', [
      ...next,
      "o2,h2,dry-summer,south,6,oats rye,",
    ]);
    withDesign({ meetAgainShare: 0.5 });
    await refused("begun with another design");
    withDesign({});
    folder.write(
      "ledger.json",
      before.replace('"secret":null', `"secret":"${folder.read("secret.txt").trim()}"`),
    );
    await refused("the ledger's secret is published");
    folder.write("ledger.json", before.replace('"boxes":4', '"boxes":5'));
    await refused("does not stand: draw 1: altered");
    folder.write("ledger.json", "[]");
    await refused("no ledger, or a part of it");
    folder.write("ledger.json", before);
    folder.write("secret.txt", "0".repeat(64));
    await refused("the secret is not the one that was sealed");
  });

  it("files that are in the way: a ledger, a secret, another run", async () => {
    await folder.begin();
    const [was, secret] = [folder.read("ledger.json"), folder.read("secret.txt")];
    expect((await folder.draw("list.csv", "--new-secret", "other.txt")).stderr).toContain(
      "the ledger exists",
    );
    expect(existsSync(join(folder.path, "other.txt"))).toBe(false);
    const second = await runIn(
      folder.path,
      ...["draw", "design.json", "list.csv", "--ledger", "second.json", "--new-secret", "secret.txt"],
    );
    expect(second).toMatchObject({ exitCode: 2, stdout: "" });
    expect(second.stderr).toContain("secret.txt exists. Name a new file");
    folder.write("ledger.json.new", "");
    const { exitCode, stderr } = await folder.goOn(["o9,h9,mild-wet,north,4,rye oats,"]);
    expect(exitCode).toBe(2);
    expect(stderr).toContain("another run is drawing, or one was cut off");
    expect([folder.read("ledger.json"), folder.read("secret.txt")]).toEqual([was, secret]);
    expect(existsSync(join(folder.path, "second.json"))).toBe(false);
    expect(existsSync(join(folder.path, "second.json.new"))).toBe(false);
  });

  it.each([
    [["design.json"], /give two files/],
    [["design.json", "list.csv"], /name the ledger with --ledger/],
    [["design.json", "list.csv", "--ledger", "l.json"], /--new-secret FILE to begin/],
    [
      ["design.json", "list.csv", "--ledger", "l.json", "--secret", "a", "--new-secret", "b"],
      /--new-secret FILE to/,
    ],
    [["design.json", "list.csv", "--ledger", "l.json", "--secret", "a"], /no such file|no such ledger/],
    [["design.json", "list.csv", "--ledger", "no/l.json", "--new-secret", "a"], /there is no such folder/],
    [
      ["missing.json", "list.csv", "--ledger", "l.json", "--new-secret", "a"],
      /missing\.json: There is no such file/,
    ],
    [
      ["design.json", "missing.csv", "--ledger", "l.json", "--new-secret", "a"],
      /missing\.csv: There is no such file/,
    ],
    [["list.csv", "list.csv", "--ledger", "l.json", "--new-secret", "a"], /list\.csv: This is not JSON/],
    [["design.json", "design.json", "--ledger", "l.json", "--new-secret", "a"], /design\.json:1: /],
  ])("misuse %j", async (argv, message) => {
    const { exitCode, stdout, stderr } = await runIn(folder.path, "draw", ...argv);
    expect([exitCode, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(message);
    expect(readdirSync(folder.path).sort()).toEqual(["design.json", "list.csv"]);
  });
});
