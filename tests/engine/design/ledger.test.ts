import { describe, expect, test } from "vitest";
import { designOf } from "@/lib/engine/design/draw";
import { EarlierDraws } from "@/lib/engine/design/history";
import { appendDraw, chainStart, entryHash, receiptOf, sealOf, timeHashOf } from "@/lib/engine/design/ledger";
import { canonicalHash, sha256HexOfBytes } from "@/lib/engine/random/hash";
import { drawReceiptSchema, ledgerEntrySchema } from "@/shared/schemas/draw";
import { ledgerFileSchema } from "@/shared/schemas/ledger-file";
import staged from "../../fixtures/reference/draw/ledger-staged.json";
import reference from "../../fixtures/reference/random/draw-1.json";
import { NO_HISTORY, someInputs } from "./draw-inputs";

const { secretHex, trialId, planHash, seal } = reference;
const trial = { trialId, planHash, seal };
const DESIGN = { meetAgainShare: 0, fetchAfterDays: null };

describe("sealed ledger", () => {
  test("the seal is SHA-256 of the secret's bytes, as the independent implementation has it", () => {
    expect(sealOf(secretHex)).toBe(seal);
    expect(sealOf(secretHex)).toBe(sha256HexOfBytes(Uint8Array.from({ length: 32 }, (_, i) => i)));
    expect(() => sealOf("1234")).toThrow(RangeError);
  });

  test("appending the frozen inputs gives the frozen chain, hash by hash, returns and fetch days included", () => {
    const {
      trial: named,
      plan,
      planHash: published,
      seal: publishedSeal,
      secret,
      entries,
    } = ledgerFileSchema.parse(staged);
    const sealed = { trialId: named.id, planHash: published, seal: publishedSeal };
    const earlier = new EarlierDraws(plan.arms.map(({ code }) => code));
    let previous = null;
    for (const frozen of entries) {
      const { inputs } = frozen;
      const appended = appendDraw(sealed, designOf(plan), previous, secret!, inputs, earlier.of(inputs));
      expect(appended).toEqual({ ok: true, entry: frozen });
      earlier.add(frozen);
      previous = frozen;
    }
    expect(entries.filter(({ inputs }) => inputs.returns !== undefined)).toHaveLength(6);
  });

  test("entries of the first rule keep their hashes", () => {
    for (const entry of reference.entries) expect(entryHash(ledgerEntrySchema.parse(entry))).toBe(entry.hash);
  });

  test("an entry's hash is the canonical hash of its other members", () => {
    const { hash, ...rest } = reference.entries[3]!;
    expect(canonicalHash(rest)).toBe(hash);
  });

  test("the chain starts from trial, plan and seal together", () => {
    expect(reference.entries[0]!.previousHash).toBe(chainStart(trial));
    const starts = [
      trial,
      { ...trial, trialId: "018f3a5e-0000-7000-8000-00000000000b" },
      { ...trial, planHash: seal },
      { ...trial, seal: planHash },
    ].map(chainStart);
    expect(new Set(starts).size).toBe(4);
  });

  test("a refused draw adds no entry", () => {
    const inputs = someInputs({ drawnBefore: [0, 0, 0, 0], grainsAtHand: [] });
    expect(appendDraw(trial, DESIGN, null, secretHex, inputs, NO_HISTORY)).toMatchObject({
      ok: false,
      reason: "NO_ARM_POSSIBLE",
    });
  });

  test("drawing from a secret that is not behind the seal is a fault", () => {
    const inputs = someInputs({ drawnBefore: [0, 0] });
    expect(() => appendDraw(trial, DESIGN, null, "00".repeat(32), inputs, NO_HISTORY)).toThrow(
      /secret behind the seal/,
    );
  });

  test("a return without what it returns is a fault, and so is an allocation nothing asked to return", () => {
    const inputs = someInputs({ drawnBefore: [0, 0] });
    const { outingId: returns } = someInputs({ drawnBefore: [0, 0], outing: 9 });
    expect(() => appendDraw(trial, DESIGN, null, secretHex, { ...inputs, returns }, NO_HISTORY)).toThrow(
      /returns/,
    );
    const history = { ...NO_HISTORY, returned: { result: [{ position: 1, arm: "arm-1" }] } };
    expect(() => appendDraw(trial, DESIGN, null, secretHex, inputs, history)).toThrow(/returns/);
  });

  test("the receipt names the draw and carries nothing of its inputs or result", () => {
    const entry = ledgerEntrySchema.parse(reference.entries[1]);
    const receipt = receiptOf(trial, entry);
    expect(drawReceiptSchema.parse(receipt)).toEqual({
      trialId,
      number: 2,
      algorithm: "grainlot-draw/1",
      hash: entry.hash,
      previousHash: reference.entries[0]!.hash,
      seal,
      shortHash: `${entry.hash.slice(0, 8)}-${entry.hash.slice(56)}`,
    });
  });

  test("the time hash needs its salt", () => {
    const instant = "2026-05-03T09:30:00.000Z";
    const hash = timeHashOf("00".repeat(16), instant);
    expect(hash).toMatch(/^[0-9a-f]{64}$/);
    expect(timeHashOf("00".repeat(16), instant)).toBe(hash);
    expect(timeHashOf("01".repeat(16), instant)).not.toBe(hash);
    expect(timeHashOf("00".repeat(16), "2026-05-03T09:30:01.000Z")).not.toBe(hash);
  });
});

test("ledger forms refuse what does not belong to them", () => {
  const entry = reference.entries[0]!;
  expect(ledgerEntrySchema.safeParse(entry).success).toBe(true);
  const { inputs } = entry;
  for (const changed of [
    { ...entry, algorithm: "two words" },
    { ...entry, algorithm: "\ud800" },
    { ...entry, fetchAfterDays: 0 },
    { ...entry, inputs: { ...inputs, returns: "draw 3" } },
  ]) {
    expect(ledgerEntrySchema.safeParse(changed).success).toBe(false);
  }
  for (const changed of [
    { ...inputs, email: "someone@example.org" },
    { ...inputs, household: "someone@example.org" },
    { ...inputs, outingId: inputs.outingId.toUpperCase() },
    { ...inputs, boxes: 13 },
    { ...inputs, grainsAtHand: ["rye", "rye"] },
    { ...inputs, arms: [inputs.arms[0], inputs.arms[0]] },
    { ...inputs, timeHash: "2026-05-03T09:30:00Z" },
  ]) {
    expect(ledgerEntrySchema.safeParse({ ...entry, inputs: changed }).success).toBe(false);
  }
});
