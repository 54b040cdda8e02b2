import { describe, expect, test } from "vitest";
import { appendDraw, chainStart, entryHash, sealOf } from "@/lib/engine/design/ledger";
import { type LedgerProblem, verifyLedger } from "@/lib/engine/design/verify-ledger";
import { type DrawInputs, type LedgerEntry, ledgerEntrySchema } from "@/shared/schemas/draw";
import reference from "../../fixtures/reference/random/draw-1.json";

const { secretHex, trialId, planHash, seal } = reference;
const trial = { trialId, planHash, seal };
const entries = reference.entries.map((entry) => ledgerEntrySchema.parse(entry));
const head = { draws: entries.length, lastHash: entries.at(-1)!.hash };

/** What someone who can write the file, but has no access to the server, can do: change without mending hashes. */
function changed(number: number, change: (entry: LedgerEntry) => Partial<LedgerEntry>): LedgerEntry[] {
  return entries.map((entry) => (entry.number === number ? { ...entry, ...change(entry) } : entry));
}

/** What whoever runs the server could do: the same change with every later hash mended. */
function rewritten(from: readonly LedgerEntry[]): LedgerEntry[] {
  let previousHash = chainStart(trial);
  return from.map((entry, index) => {
    const content = { ...entry, number: index + 1, previousHash };
    previousHash = entryHash(content);
    return { ...content, hash: previousHash };
  });
}

/** One more draw, made with the true secret from inputs the caller chooses. */
function withDraw(change: (last: DrawInputs, counts: DrawInputs["arms"]) => DrawInputs): LedgerEntry[] {
  const last = entries.at(-1)!;
  const counts = last.inputs.arms.map((arm) => ({
    ...arm,
    drawnBefore: arm.drawnBefore + last.result.filter((placement) => placement.arm === arm.code).length,
  }));
  const appended = appendDraw(trial, last, secretHex, change(last.inputs, counts));
  if (!appended.ok) throw new Error(appended.reason);
  return [...entries, appended.entry];
}

function swapTwoArms({ result }: LedgerEntry): Pick<LedgerEntry, "result"> {
  const other = result.findIndex((placement) => placement.arm !== result[0]!.arm);
  const arms = result.map((placement) => placement.arm);
  [arms[0], arms[other]] = [arms[other]!, arms[0]!];
  return { result: arms.map((arm, i) => ({ position: i + 1, arm })) };
}

const NEW_OUTING = "018f3a5e-0000-7000-8000-0000000000ff";

describe("a true ledger passes", () => {
  test("with its secret every draw is made again", () => {
    expect(verifyLedger({ ...trial, entries, head, secretHex })).toEqual({ ok: true, head, replayed: true });
  });

  test("while sealed the chain is checked and nothing is said to be replayed", () => {
    expect(verifyLedger({ ...trial, entries, head })).toEqual({ ok: true, head, replayed: false });
  });

  test("after growing, against a head noted earlier", () => {
    const noted = { draws: 4, lastHash: entries[3]!.hash };
    expect(verifyLedger({ ...trial, entries, head: noted, secretHex }).ok).toBe(true);
    const atStart = { draws: 0, lastHash: chainStart(trial) };
    expect(verifyLedger({ ...trial, entries, head: atStart, secretHex }).ok).toBe(true);
  });

  test("before its first draw", () => {
    const empty = { draws: 0, lastHash: chainStart(trial) };
    expect(verifyLedger({ ...trial, entries: [], head: empty })).toEqual({
      ok: true,
      head: empty,
      replayed: false,
    });
  });

  test("with one honest draw more", () => {
    const longer = withDraw((last, arms) => ({ ...last, outingId: NEW_OUTING, arms }));
    expect(verifyLedger({ ...trial, entries: longer, head, secretHex })).toMatchObject({
      ok: true,
      head: { draws: entries.length + 1 },
    });
  });

  test("and survives a round trip through JSON with its members in another order", () => {
    const shuffled = entries.map((entry) =>
      ledgerEntrySchema.parse(
        JSON.parse(JSON.stringify(Object.fromEntries(Object.entries(entry).reverse()))),
      ),
    );
    expect(verifyLedger({ ...trial, entries: shuffled, head, secretHex }).ok).toBe(true);
  });
});

describe("tampering without mending hashes is named", () => {
  test.each<[string, LedgerEntry[], LedgerProblem, number]>([
    ["an allocation changed", changed(5, swapTwoArms), "CHANGED_ENTRY", 5],
    ["an input changed", changed(5, (e) => ({ inputs: { ...e.inputs, boxes: 9 } })), "CHANGED_ENTRY", 5],
    [
      "the algorithm's name changed",
      changed(2, () => ({ algorithm: "grainlot-draw/2" })),
      "CHANGED_ENTRY",
      2,
    ],
    ["a draw dropped", entries.filter((entry) => entry.number !== 3), "BROKEN_CHAIN", 3],
    ["the first draw dropped", entries.slice(1), "BROKEN_CHAIN", 1],
    ["two draws swapped", [entries[0]!, entries[2]!, entries[1]!, ...entries.slice(3)], "BROKEN_CHAIN", 2],
    ["a draw repeated", [...entries.slice(0, 3), entries[2]!, ...entries.slice(3)], "BROKEN_CHAIN", 4],
    ["the tail cut off", entries.slice(0, -2), "TRUNCATED", entries.length - 1],
    ["everything cut off", [], "TRUNCATED", 1],
  ])("%s", (_name, tampered, problem, drawNumber) => {
    const expected = { ok: false, problem, drawNumber };
    expect(verifyLedger({ ...trial, entries: tampered, head, secretHex })).toEqual(expected);
    expect(verifyLedger({ ...trial, entries: tampered, head })).toEqual(expected);
  });

  test("the ledger of another trial, plan or seal", () => {
    for (const other of [
      { ...trial, trialId: "018f3a5e-0000-7000-8000-00000000000b" },
      { ...trial, planHash: seal },
      { ...trial, seal: sealOf("00".repeat(32)) },
    ]) {
      expect(verifyLedger({ ...other, entries })).toEqual({
        ok: false,
        problem: "BROKEN_CHAIN",
        drawNumber: 1,
      });
    }
  });

  test.each(["00".repeat(32), "not a secret", "", secretHex.toUpperCase()])(
    "a wrong secret (%#)",
    (wrong) => {
      expect(verifyLedger({ ...trial, entries, head, secretHex: wrong })).toEqual({
        ok: false,
        problem: "WRONG_SECRET",
        drawNumber: null,
      });
    },
  );
});

describe("tampering with every hash mended is named", () => {
  test.each<[string, LedgerEntry[], LedgerProblem, number]>([
    ["an allocation changed", rewritten(changed(12, swapTwoArms)), "NOT_AS_DRAWN", 12],
    [
      "a box's arm changed for one that was not taken",
      rewritten(
        changed(2, ({ result, inputs }) => {
          const untaken = inputs.arms.find((arm) => result.every((placement) => placement.arm !== arm.code))!;
          return { result: [{ position: 1, arm: untaken.code }, ...result.slice(1)] };
        }),
      ),
      "NOT_AS_DRAWN",
      2,
    ],
    [
      "a box left out",
      rewritten(changed(12, ({ result }) => ({ result: result.slice(1) }))),
      "NOT_AS_DRAWN",
      12,
    ],
    [
      "grains said to be at hand that were not",
      rewritten(
        changed(3, (e) => ({ inputs: { ...e.inputs, grainsAtHand: entries[0]!.inputs.grainsAtHand } })),
      ),
      "NOT_AS_DRAWN",
      3,
    ],
    [
      "boxes no rule would draw for",
      rewritten(changed(3, (e) => ({ inputs: { ...e.inputs, boxes: 99 } }))),
      "NOT_AS_DRAWN",
      3,
    ],
    [
      "a second draw for an outing",
      withDraw((last, arms) => ({ ...last, arms })),
      "SECOND_DRAW_FOR_OUTING",
      entries.length + 1,
    ],
    [
      "counts raised for one arm",
      withDraw((last, arms) => ({
        ...last,
        outingId: NEW_OUTING,
        arms: arms.map((arm, i) => (i === 0 ? { ...arm, drawnBefore: arm.drawnBefore + 1 } : arm)),
      })),
      "COUNTS_DONT_FOLLOW",
      entries.length + 1,
    ],
    [
      "counts taken from another climate group",
      withDraw((last, arms) => ({ ...last, outingId: NEW_OUTING, arms, climateGroup: "cool" })),
      "COUNTS_DONT_FOLLOW",
      entries.length + 1,
    ],
    [
      "an arm left out of the choice",
      withDraw((last, arms) => ({ ...last, outingId: NEW_OUTING, arms: arms.slice(1) })),
      "ARMS_CHANGED",
      entries.length + 1,
    ],
    [
      "arms in another order",
      withDraw((last, arms) => ({ ...last, outingId: NEW_OUTING, arms: arms.toReversed() })),
      "ARMS_CHANGED",
      entries.length + 1,
    ],
    [
      "an unknown rule",
      rewritten(changed(12, () => ({ algorithm: "grainlot-draw/99" }))),
      "UNKNOWN_ALGORITHM",
      12,
    ],
  ])("%s", (_name, tampered, problem, drawNumber) => {
    expect(verifyLedger({ ...trial, entries: tampered, secretHex })).toEqual({
      ok: false,
      problem,
      drawNumber,
    });
  });

  test("a draw dropped from the middle shows by its group's counts, by the replay or by the head", () => {
    const early = rewritten(entries.filter((entry) => entry.number !== 2));
    const countsAt2 = { ok: false, problem: "COUNTS_DONT_FOLLOW", drawNumber: 2 };
    expect(verifyLedger({ ...trial, entries: early, secretHex })).toEqual(countsAt2);
    expect(verifyLedger({ ...trial, entries: early })).toEqual(countsAt2);

    // Draw 10 is the only one of its group: no later count rests on it.
    const alone = rewritten(entries.filter((entry) => entry.number !== 10));
    expect(verifyLedger({ ...trial, entries: alone, secretHex })).toEqual({
      ok: false,
      problem: "NOT_AS_DRAWN",
      drawNumber: 10,
    });
    expect(verifyLedger({ ...trial, entries: alone, head })).toMatchObject({ problem: "TRUNCATED" });
  });

  test("while the secret is sealed, a rewritten last draw shows against the published head", () => {
    const last = rewritten(changed(12, swapTwoArms));
    expect(verifyLedger({ ...trial, entries: last }).ok).toBe(true);
    expect(verifyLedger({ ...trial, entries: last, head })).toEqual({
      ok: false,
      problem: "OTHER_HEAD",
      drawNumber: 12,
    });
    const noDraws = { draws: 0, lastHash: "0".repeat(64) };
    expect(verifyLedger({ ...trial, entries, head: noDraws })).toEqual({
      ok: false,
      problem: "OTHER_HEAD",
      drawNumber: null,
    });
  });
});
