import { createHash, createHmac } from "node:crypto";
import { readdirSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { runIn } from "../capture";
import { type DrawFolder, drawFolder, HEADER, LIST } from "./draw-folder";

let folder: DrawFolder;
beforeEach(() => {
  folder = drawFolder();
});
afterEach(() => folder.remove());

describe("beginning a ledger", () => {
  it("gives a table of boxes, a ledger that verifies, and a secret nobody else can read", async () => {
    const { exitCode, stdout, stderr } = await folder.begin();
    expect(exitCode).toBe(0);
    const [header, ...rows] = stdout.trimEnd().split("\n");
    expect(header).toBe("outing,position,recipe,grain,fetch_after_days,draw,receipt");
    expect(rows.map((row) => row.split(",").slice(0, 2).join())).toEqual([
      ...[1, 2, 3, 4].map((n) => `o1,${n}`),
      ...[1, 2, 3, 4, 5, 6].map((n) => `o2,${n}`),
      ...[1, 2, 3].map((n) => `o3,${n}`),
    ]);
    for (const row of rows) {
      const [outing, , recipe, grain, days] = row.split(",");
      expect(recipe).toMatch(new RegExp(`^${grain}-(firm|soft)$`));
      if (outing === "o2") expect(grain).not.toBe("barley");
      expect([4, 6, 8]).toContain(Number(days));
    }
    const secret = folder.read("secret.txt");
    expect(secret).toMatch(/^[0-9a-f]{64}\n$/);
    expect(statSync(join(folder.path, "secret.txt")).mode & 0o777).toBe(0o600);
    expect(stdout + stderr + folder.read("ledger.json")).not.toContain(secret.trim());
    // The seal by Node's own SHA-256.
    const seal = createHash("sha256").update(Buffer.from(secret.trim(), "hex")).digest("hex");
    expect(stderr).toContain(`seal ${seal}\n`);
    expect(folder.ledger().seal).toBe(seal);
    const verified = await runIn(folder.path, "verify", "ledger.json", "--secret", "secret.txt");
    expect(verified.stdout).toContain("verified. All 3 draws");
    expect(readdirSync(folder.path).sort()).toEqual(["design.json", "ledger.json", "list.csv", "secret.txt"]);
  });

  it("can be done without a draw, so that the seal is public before the first", async () => {
    folder.write("none.csv", `${HEADER}\n`);
    const { exitCode, stderr } = await folder.begin("none.csv");
    expect(exitCode).toBe(0);
    expect(stderr).toContain("0 drawn; ledger.json now holds 0 draws.");
    expect((await folder.goOn(["o1,h1,mild-wet,north,4,barley oats rye,"])).exitCode).toBe(0);
    expect(folder.ledger().entries).toHaveLength(1);
  });

  it("makes another secret and other draws every time", async () => {
    const first = (await folder.begin()).stdout;
    for (const name of ["ledger.json", "secret.txt"]) rmSync(join(folder.path, name));
    expect((await folder.begin()).stdout).not.toBe(first);
  });
});

describe("going on with a ledger", () => {
  it("chains the new draws to the old ones and leaves those untouched", async () => {
    await folder.begin();
    const before = folder.ledger();
    expect(
      (await folder.goOn(["o4,h2,dry-summer,south,4,barley oats rye,", "o5,h3,mild-wet,east,2,rye oats,"]))
        .exitCode,
    ).toBe(0);
    const { entries, ...head } = folder.ledger();
    const { entries: earlier, ...headBefore } = before;
    expect(head).toEqual(headBefore);
    expect(entries.slice(0, 3)).toEqual(earlier);
    expect(entries.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5]);
    expect(entries[3]!.previousHash).toBe(earlier[2]!.hash);
    const verified = await runIn(folder.path, "verify", "ledger.json", "--secret", "secret.txt");
    expect(verified.stdout).toContain("verified. All 5 draws");
  });

  it("gives the same draws in one go or in several", async () => {
    await folder.begin("list.csv");
    const [secret, id] = [folder.read("secret.txt").trim(), folder.ledger().trial.id];
    const inOneGo = folder.ledger().entries.map(({ result, fetchAfterDays }) => ({ result, fetchAfterDays }));
    folder.write("ledger.json", JSON.stringify({ ...folder.ledger(), entries: [] }));
    for (const line of LIST.split("\n").slice(1)) expect((await folder.goOn([line])).exitCode).toBe(0);
    expect(folder.ledger().entries.map(({ result, fetchAfterDays }) => ({ result, fetchAfterDays }))).toEqual(
      inOneGo,
    );
    expect([folder.read("secret.txt").trim(), folder.ledger().trial.id]).toEqual([secret, id]);
  });

  it("brings an abandoned outing's recipes back, once and to its own household", async () => {
    await folder.begin();
    const { stdout, exitCode } = await folder.goOn(["o1b,h1,mild-wet,north,4,barley oats rye,o1"], "--json");
    expect(exitCode).toBe(0);
    const arms = (boxes: readonly { arm: string }[]) => boxes.map(({ arm }) => arm).sort();
    expect(arms(JSON.parse(stdout).outings[0].boxes)).toEqual(arms(folder.ledger().entries[0]!.result));
    expect(folder.ledger().entries[3]!.inputs.returns).toBe(folder.ledger().entries[0]!.inputs.outingId);
    for (const [line, at] of [
      ["o1c,h1,mild-wet,north,4,barley oats rye,o1", "come back already"],
      ["o9,h2,dry-summer,south,4,barley oats rye,o3", 'Household "h2" has no outing "o3"'],
      ["o9,h1,mild-wet,north,4,barley oats rye,o77", 'has no outing "o77"'],
    ] as const) {
      const { exitCode, stderr } = await folder.goOn([line]);
      expect(exitCode).toBe(2);
      expect(stderr).toContain(at);
    }
    expect(folder.ledger().entries).toHaveLength(4);
  });

  it("names each draw's time so that it can be shown later and guessed by nobody", async () => {
    const { stdout } = await folder.begin("list.csv", "--json");
    const report = JSON.parse(stdout);
    expect(Object.keys(report)).toEqual(["trial", "seal", "planHash", "draws", "lastHash", "outings"]);
    for (const [index, { drawnAt, timeSalt }] of report.outings.entries()) {
      // HMAC-SHA-256 by Node, keyed by the salt.
      const hash = createHmac("sha256", Buffer.from(timeSalt, "hex")).update(drawnAt).digest("hex");
      expect(folder.ledger().entries[index]!.inputs.timeHash).toBe(hash);
    }
  });
});
