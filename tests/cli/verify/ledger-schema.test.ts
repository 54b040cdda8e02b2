import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import Ajv2020 from "ajv/dist/2020";
import { describe, expect, it } from "vitest";
import { LEDGER_END, ledgerLines, ledgerStart } from "@/lib/engine/design/write-ledger-file";
import { invented } from "../../fixtures/ledger/make-ledger";
import { headOf } from "../../fixtures/ledger/tamper";
import { runIn } from "../capture";

const examplePath = new URL("../../fixtures/ledger/example.json", import.meta.url);
const example = JSON.parse(readFileSync(examplePath, "utf8"));

/** The schema as a stranger gets it, under a validator that isn't ours (Ajv, JSON Schema draft 2020-12). */
async function validator() {
  const { stdout } = await runIn(".", "verify", "--schema");
  return new Ajv2020({ strict: true, allErrors: false, formats: { uuid: true, date: true } }).compile(
    JSON.parse(stdout),
  );
}

describe("the example ledger", () => {
  it("says that it is invented, and is what the program makes of its inputs to this day", async () => {
    expect(example.trial.title).toMatch(/invented/i);
    const { entries, ...head } = invented(12);
    const text = ledgerStart(head) + ledgerLines(entries, true) + LEDGER_END;
    await expect(text).toMatchFileSnapshot(fileURLToPath(examplePath));
  });

  it("holds what a ledger can hold: staged fetches, a returned allocation, repeated arms, a grain not at hand", () => {
    const { entries, plan } = invented(12);
    expect(entries.every(({ fetchAfterDays }) => fetchAfterDays !== undefined)).toBe(true);
    expect(entries.some(({ inputs }) => inputs.returns !== undefined)).toBe(true);
    expect(entries.some(({ result }) => new Set(result.map(({ arm }) => arm)).size < result.length)).toBe(
      true,
    );
    const grains = new Set(plan.arms.map(({ grain }) => grain));
    expect(entries.some(({ inputs }) => inputs.grainsAtHand.length < grains.size)).toBe(true);
  });

  it("is verified by the command, against its head", async () => {
    const { seal, draws, lastHash } = headOf(example);
    const argv = ["verify", "example.json", "--head", `${seal},${draws},${lastHash}`];
    const { exitCode, stdout } = await runIn(fileURLToPath(new URL(".", examplePath)), ...argv);
    expect(exitCode).toBe(0);
    expect(stdout).toContain("All 12 draws came out again");
  });
});

describe("the JSON Schema of ledgers", () => {
  it("accepts the example, and the same ledger while it is sealed", async () => {
    const valid = await validator();
    expect(valid(example) || valid.errors).toBe(true);
    expect(valid({ ...example, secret: null }) || valid.errors).toBe(true);
    expect(valid({ ...example, entries: [] }) || valid.errors).toBe(true);
  });

  it.each<[string, (ledger: typeof example) => void]>([
    ["another form", (ledger) => Object.assign(ledger, { form: "grainlot-ledger/2" })],
    ["no seal", (ledger) => delete ledger.seal],
    ["a hash in capitals", (ledger) => Object.assign(ledger.entries[0], { hash: "A".repeat(64) })],
    ["an id in capitals", (ledger) => Object.assign(ledger.trial, { id: ledger.trial.id.toUpperCase() })],
    ["a member nobody knows", (ledger) => Object.assign(ledger.entries[2], { note: "x" })],
    ["a position of 0", (ledger) => Object.assign(ledger.entries[1].result[0], { position: 0 })],
    ["half a box", (ledger) => Object.assign(ledger.entries[1].inputs, { boxes: 2.5 })],
    ["a plan without arms", (ledger) => delete ledger.plan.arms],
  ])("refuses %s", async (_, spoil) => {
    const spoilt = structuredClone(example);
    spoil(spoilt);
    expect((await validator())(spoilt)).toBe(false);
  });

  // Node's OpenSSL and sorted JSON, not our hashes: with ASCII text and whole or short decimal numbers, JSON with
  // sorted members and no white space is RFC 8785's.
  it("describes the hashes so that they can be worked out from its words alone", () => {
    const sha256 = (text: string | Buffer) => createHash("sha256").update(text).digest("hex");
    const { seal, plan, secret, trial, entries } = example;
    expect(seal).toBe(sha256(Buffer.from(secret, "hex")));
    expect(example.planHash).toBe(sha256(sorted(plan)));
    let previous = sha256(sorted({ planHash: example.planHash, seal, trialId: trial.id }));
    const boxes = new Map<string, number>();
    for (const { hash, ...content } of entries) {
      expect(content.previousHash).toBe(previous);
      expect(hash).toBe(sha256(sorted(content)));
      previous = hash;
      const { climateGroup, arms, returns } = content.inputs;
      const key = (arm: string) => `${climateGroup} ${arm}`;
      for (const { code, drawnBefore } of arms) expect(drawnBefore).toBe(boxes.get(key(code)) ?? 0);
      if (returns) continue;
      for (const { arm } of content.result) boxes.set(key(arm), (boxes.get(key(arm)) ?? 0) + 1);
    }
  });
});

function sorted(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(sorted).join(",")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const members = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${members.map(([name, member]) => `${JSON.stringify(name)}:${sorted(member)}`).join(",")}}`;
}
