import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { LedgerFile } from "@/shared/schemas/ledger-file";
import { runIn, scratchFolder } from "../capture";

/** All of it invented. */
export const design = {
  form: "grainlot-design/1",
  title: "Invented: firm or soft",
  arms: ["barley", "oats", "rye"].flatMap((grain) => [
    { code: `${grain}-firm`, grain },
    { code: `${grain}-soft`, grain },
  ]),
  boxesPerSet: { min: 2, max: 6 },
  climateGroups: ["mild-wet", "dry-summer"],
  meetAgainShare: 0.25,
  fetchRule: { kind: "staged", afterDays: [4, 6, 8] },
};
export const HEADER = "outing,household,group,region,boxes,grains,returns";
export const LIST = [
  HEADER,
  "o1,h1,mild-wet,north,4,barley oats rye,",
  "o2,h2,dry-summer,south,6,oats rye,",
  "o3,h1,mild-wet,north,3,barley oats rye,",
].join("\n");

/** A folder with design.json and list.csv, and the command run in it. */
export function drawFolder() {
  const folder = scratchFolder();
  folder.write("design.json", JSON.stringify(design));
  folder.write("list.csv", LIST);
  const draw = (list: string, ...options: string[]) =>
    runIn(folder.path, "draw", "design.json", list, "--ledger", "ledger.json", ...options);
  const read = (name: string) => readFileSync(join(folder.path, name), "utf8");
  return {
    ...folder,
    draw,
    /** Begins ledger.json with secret.txt. */
    begin: (list = "list.csv", ...options: string[]) => draw(list, "--new-secret", "secret.txt", ...options),
    /** Goes on with them for these lines of a list. */
    goOn: (lines: readonly string[], ...options: string[]) => {
      folder.write("more.csv", [HEADER, ...lines].join("\n"));
      return draw("more.csv", "--secret", "secret.txt", ...options);
    },
    read,
    ledger: (): LedgerFile => JSON.parse(read("ledger.json")),
  };
}
export type DrawFolder = ReturnType<typeof drawFolder>;
