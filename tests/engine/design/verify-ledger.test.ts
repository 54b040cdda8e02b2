import { describe, expect, test } from "vitest";
import { designOf } from "@/lib/engine/design/draw";
import { EarlierDraws } from "@/lib/engine/design/history";
import { appendDraw, chainStart, entryHash, sealOf } from "@/lib/engine/design/ledger";
import type { LedgerProblem } from "@/lib/engine/design/ledger-problem";
import { planHash } from "@/lib/engine/design/plan";
import { leastDrawnFirst } from "@/lib/engine/design/rule-1";
import {
  type LedgerVerdict,
  ledgerChecker,
  ledgerToCheck,
  verifyLedgerFile,
} from "@/lib/engine/design/verify-ledger";
import { drawSource } from "@/lib/engine/random/source";
import type { DrawInputs, LedgerEntry } from "@/shared/schemas/draw";
import { type LedgerFile, ledgerFileSchema } from "@/shared/schemas/ledger-file";
import bothRules from "../../fixtures/reference/draw/ledger-both-rules.json";
import staged from "../../fixtures/reference/draw/ledger-staged.json";

// Both ledgers are made by an independent implementation: fixtures/reference/draw/generate.py.
const file = ledgerFileSchema.parse(staged);
const { entries, seal } = file;
const trial = { trialId: file.trial.id, planHash: file.planHash, seal };
const head = { seal, draws: entries.length, lastHash: entries.at(-1)!.hash };
const sealedFile = { ...file, secret: null };

/** What someone who can write the file, but has no access to the server, can do: change without mending hashes. */
function changed(number: number, change: (entry: LedgerEntry) => Partial<LedgerEntry>): LedgerEntry[] {
  return entries.map((entry) => (entry.number === number ? { ...entry, ...change(entry) } : entry));
}

const withInputs =
  (change: (inputs: DrawInputs) => Partial<DrawInputs>) =>
  ({ inputs }: LedgerEntry): Partial<LedgerEntry> => ({ inputs: { ...inputs, ...change(inputs) } });

/** What whoever runs the server could do: the same change with every later hash mended. */
function mended(from: readonly LedgerEntry[]): LedgerEntry[] {
  let previousHash = chainStart(trial);
  return from.map((entry, index) => {
    const content = { ...entry, number: index + 1, previousHash };
    previousHash = entryHash(content);
    return { ...content, hash: previousHash };
  });
}

const NEW_OUTING = "018f3a5e-0000-7000-8000-0000000000ff";

/** One more draw, made with the true secret and history from inputs the caller chooses. */
function withDraw(change: (honest: DrawInputs) => Partial<DrawInputs>): LedgerEntry[] {
  const earlier = earlierOf(file);
  const { returns: _, ...last } = entries.at(-1)!.inputs;
  const before = earlier.drawnBefore(last.climateGroup);
  const arms = last.arms.map((arm) => ({ ...arm, drawnBefore: before.get(arm.code) ?? 0 }));
  const honest = { ...last, outingId: NEW_OUTING, arms };
  const inputs = { ...honest, ...change(honest) };
  const design = designOf(file.plan);
  const appended = appendDraw(trial, design, entries.at(-1)!, file.secret!, inputs, earlier.of(inputs));
  if (!appended.ok) throw new Error(appended.reason);
  return [...entries, appended.entry];
}

function earlierOf({ plan, entries: of }: LedgerFile): EarlierDraws {
  const earlier = new EarlierDraws(plan.arms.map(({ code }) => code));
  for (const entry of of) earlier.add(entry);
  return earlier;
}

/** One more draw, truly made and chained, but by the first rule. */
function firstRuleDrawAfter(ledger: LedgerFile): { entry: LedgerEntry; inputs: DrawInputs } {
  const before = ledger.entries.at(-1)!;
  const counts = earlierOf(ledger).drawnBefore(before.inputs.climateGroup);
  const arms = before.inputs.arms.map((arm) => ({ ...arm, drawnBefore: counts.get(arm.code) ?? 0 }));
  const inputs = { ...before.inputs, outingId: NEW_OUTING, arms };
  const number = before.number + 1;
  const drawn = leastDrawnFirst(
    inputs,
    drawSource({ secretHex: ledger.secret!, trialId: ledger.trial.id, drawNumber: number }),
  );
  if (!drawn.ok) throw new Error(drawn.reason);
  const algorithm = "grainlot-draw/1";
  const content = { number, algorithm, inputs, result: drawn.placements, previousHash: before.hash };
  return { entry: { ...content, hash: entryHash(content) }, inputs };
}

function swapTwoArms({ result }: LedgerEntry): Pick<LedgerEntry, "result"> {
  const other = result.findIndex((placement) => placement.arm !== result[0]!.arm);
  const arms = result.map((placement) => placement.arm);
  [arms[0], arms[other]] = [arms[other]!, arms[0]!];
  return { result: arms.map((arm, i) => ({ position: i + 1, arm })) };
}

const verdictOn = (tampered: readonly LedgerEntry[], of: LedgerFile = file): LedgerVerdict =>
  verifyLedgerFile({ ...of, entries: tampered }, head);

const fault = (problem: LedgerProblem, drawNumber: number | null) => ({ ok: false, problem, drawNumber });

describe("a true ledger passes", () => {
  test("with its secret every draw is made again", () => {
    const { draws, lastHash } = head;
    expect(verifyLedgerFile(file, head)).toEqual({ ok: true, head: { draws, lastHash }, replayed: true });
  });

  test("and so is one begun under the first rule and the first form of plan", () => {
    const both = ledgerFileSchema.parse(bothRules);
    expect(new Set(both.entries.map(({ algorithm }) => algorithm)).size).toBe(2);
    expect(verifyLedgerFile(both)).toMatchObject({ ok: true, replayed: true, head: { draws: 14 } });
  });

  test("while sealed the chain is checked and nothing is said to be replayed", () => {
    expect(verifyLedgerFile(sealedFile, head)).toMatchObject({ ok: true, replayed: false });
  });

  test("after growing, against a head noted earlier", () => {
    expect(verifyLedgerFile(file, { seal, draws: 4, lastHash: entries[3]!.hash }).ok).toBe(true);
    expect(verifyLedgerFile(file, { seal, draws: 0, lastHash: chainStart(trial) }).ok).toBe(true);
  });

  test("before its first draw", () => {
    const start = { draws: 0, lastHash: chainStart(trial) };
    expect(verifyLedgerFile({ ...sealedFile, entries: [] }, { seal, ...start })).toEqual({
      ok: true,
      head: start,
      replayed: false,
    });
  });

  test("with one honest draw more", () => {
    expect(verdictOn(withDraw(() => ({})))).toMatchObject({ ok: true, head: { draws: entries.length + 1 } });
  });

  test("after a round trip through JSON with its members in another order", () => {
    const turned = (value: unknown): unknown => {
      if (Array.isArray(value)) return value.map(turned);
      if (typeof value !== "object" || value === null) return value;
      return Object.fromEntries(
        Object.entries(value)
          .reverse()
          .map(([key, member]) => [key, turned(member)]),
      );
    };
    const copy = ledgerFileSchema.parse(JSON.parse(JSON.stringify(turned(file))));
    expect(verifyLedgerFile(copy, head).ok).toBe(true);
  });
});

describe("tampering without mending hashes is named", () => {
  test.each<[string, LedgerEntry[], LedgerProblem, number]>([
    ["an allocation changed", changed(5, swapTwoArms), "CHANGED_ENTRY", 5],
    [
      "an input changed",
      changed(
        5,
        withInputs(() => ({ boxes: 9 })),
      ),
      "CHANGED_ENTRY",
      5,
    ],
    [
      "a return taken out",
      changed(
        10,
        withInputs(() => ({ returns: undefined })),
      ),
      "CHANGED_ENTRY",
      10,
    ],
    [
      "a fetch day changed",
      changed(5, ({ fetchAfterDays }) => ({ fetchAfterDays: fetchAfterDays! + 1 })),
      "CHANGED_ENTRY",
      5,
    ],
    ["a fetch day taken out", changed(5, () => ({ fetchAfterDays: undefined })), "CHANGED_ENTRY", 5],
    [
      "the algorithm's name changed",
      changed(2, () => ({ algorithm: "grainlot-draw/1" })),
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
    expect(verdictOn(tampered)).toEqual(fault(problem, drawNumber));
    expect(verdictOn(tampered, sealedFile)).toEqual(fault(problem, drawNumber));
  });

  test("a wrong secret", () => {
    for (const secret of ["00".repeat(32), seal, "not a secret"]) {
      expect(verifyLedgerFile({ ...file, secret }, head)).toEqual(fault("WRONG_SECRET", null));
    }
  });

  test("a wrong secret whose seal was put in its place", () => {
    const secret = "00".repeat(32);
    const other = { ...file, secret, seal: sealOf(secret) };
    expect(verifyLedgerFile(other)).toEqual(fault("BROKEN_CHAIN", 1));
    expect(verifyLedgerFile(other, head)).toEqual(fault("OTHER_TRIAL", null));
  });

  test("a changed plan", () => {
    const plan = { ...file.plan, endsOn: "2028-06-30" } as LedgerFile["plan"];
    expect(verifyLedgerFile({ ...file, plan }, head)).toEqual(fault("PLAN_CHANGED", null));
  });

  test("another trial's id, plan or head", () => {
    const id = "018f3a5e-0000-7000-8000-00000000000b";
    expect(verifyLedgerFile({ ...file, trial: { ...file.trial, id } }, head)).toEqual(
      fault("BROKEN_CHAIN", 1),
    );
    const { plan, planHash } = ledgerFileSchema.parse(bothRules);
    expect(verifyLedgerFile({ ...file, plan, planHash }, head)).toEqual(fault("BROKEN_CHAIN", 1));
    const otherHead = { ...head, seal: sealOf("00".repeat(32)) };
    expect(verifyLedgerFile(file, otherHead)).toEqual(fault("OTHER_TRIAL", null));
  });
});

describe("tampering with every hash mended is named", () => {
  const last = entries.length + 1;
  const household = entries.at(-1)!.inputs.household;
  const returnedBefore = entries[9]!.inputs.returns!;
  const owner = entries[9]!.inputs.household;

  test.each<[string, LedgerEntry[], LedgerProblem, number]>([
    ["an allocation changed", mended(changed(28, swapTwoArms)), "NOT_AS_DRAWN", 28],
    [
      "a box's arm changed for one that was not taken",
      mended(
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
      mended(changed(28, ({ result }) => ({ result: result.slice(1) }))),
      "NOT_AS_DRAWN",
      28,
    ],
    [
      "another of the plan's fetch days",
      mended(changed(28, () => ({ fetchAfterDays: 4 }))),
      "NOT_AS_DRAWN",
      28,
    ],
    ["a fetch day of one's own", mended(changed(28, () => ({ fetchAfterDays: 5 }))), "OUTSIDE_PLAN", 28],
    ["a fetch day taken out", mended(changed(28, () => ({ fetchAfterDays: undefined }))), "OUTSIDE_PLAN", 28],
    [
      "a climate group the plan doesn't have",
      withDraw(({ arms }) => ({
        climateGroup: "nowhere",
        arms: arms.map((arm) => ({ ...arm, drawnBefore: 0 })),
      })),
      "OUTSIDE_PLAN",
      last,
    ],
    [
      "a grain the plan doesn't have",
      withDraw(({ grainsAtHand }) => ({ grainsAtHand: [...grainsAtHand, "g99"] })),
      "OUTSIDE_PLAN",
      last,
    ],
    [
      "a household that looks new",
      mended(
        changed(
          8,
          withInputs(() => ({ household: "h-99" })),
        ),
      ),
      "NOT_AS_DRAWN",
      8,
    ],
    [
      "grains said to be at hand that were not",
      mended(
        changed(
          3,
          withInputs(() => ({ grainsAtHand: entries[0]!.inputs.grainsAtHand })),
        ),
      ),
      "NOT_AS_DRAWN",
      3,
    ],
    [
      "boxes no rule would draw for",
      mended(
        changed(
          3,
          withInputs(() => ({ boxes: 99 })),
        ),
      ),
      "OUTSIDE_PLAN",
      3,
    ],
    [
      "the older rule named",
      mended(changed(28, () => ({ algorithm: "grainlot-draw/1" }))),
      "OLDER_ALGORITHM",
      28,
    ],
    [
      "an unknown rule",
      mended(changed(12, () => ({ algorithm: "grainlot-draw/99" }))),
      "UNKNOWN_ALGORITHM",
      12,
    ],
    [
      "a second draw for an outing",
      withDraw(() => ({ outingId: entries.at(-1)!.inputs.outingId })),
      "SECOND_DRAW_FOR_OUTING",
      last,
    ],
    [
      "counts raised for one arm",
      withDraw(({ arms }) => ({
        arms: arms.map((arm, i) => (i === 0 ? { ...arm, drawnBefore: arm.drawnBefore + 1 } : arm)),
      })),
      "COUNTS_DONT_FOLLOW",
      last,
    ],
    [
      "counts taken from another climate group",
      withDraw(({ climateGroup }) => ({ climateGroup: climateGroup === "cool" ? "warm" : "cool" })),
      "COUNTS_DONT_FOLLOW",
      last,
    ],
    [
      "an arm left out of the choice",
      withDraw(({ arms }) => ({ arms: arms.slice(1) })),
      "ARMS_CHANGED",
      last,
    ],
    [
      "an arm left out from the first draw on, as the plan has it",
      mended(
        entries.map((entry) => ({ ...entry, ...withInputs(({ arms }) => ({ arms: arms.slice(1) }))(entry) })),
      ),
      "ARMS_CHANGED",
      1,
    ],
    ["arms in another order", withDraw(({ arms }) => ({ arms: arms.toReversed() })), "ARMS_CHANGED", last],
    [
      "an arm given another grain",
      withDraw(({ arms }) => ({ arms: arms.map((arm, i) => (i === 0 ? { ...arm, grain: "g2" } : arm)) })),
      "ARMS_CHANGED",
      last,
    ],
    [
      "a return of what another household had",
      withDraw(() => ({
        returns: entries.find(({ inputs }) => inputs.household !== household)!.inputs.outingId,
      })),
      "RETURN_DOESNT_FOLLOW",
      last,
    ],
    [
      "an allocation returned twice",
      withDraw(() => ({ household: owner, returns: returnedBefore })),
      "RETURN_DOESNT_FOLLOW",
      last,
    ],
    [
      "a return of what was never drawn",
      mended(
        changed(
          10,
          withInputs(() => ({ returns: NEW_OUTING })),
        ),
      ),
      "RETURN_DOESNT_FOLLOW",
      10,
    ],
    [
      "a return of the outing's own draw",
      mended(
        changed(
          10,
          withInputs(({ outingId }) => ({ returns: outingId })),
        ),
      ),
      "RETURN_DOESNT_FOLLOW",
      10,
    ],
    [
      "a return made an ordinary draw",
      mended(
        changed(
          10,
          withInputs(() => ({ returns: undefined })),
        ),
      ),
      "NOT_AS_DRAWN",
      10,
    ],
  ])("%s", (_name, tampered, problem, drawNumber) => {
    expect(verifyLedgerFile({ ...file, entries: tampered })).toEqual(fault(problem, drawNumber));
  });

  test("a plan with narrower limits than its draws had", () => {
    const plan = { ...file.plan, boxesPerSet: { min: 2, max: 6 } } as LedgerFile["plan"];
    const narrow = { ...file, plan, planHash: planHash(plan) };
    let previousHash = chainStart({ ...trial, planHash: narrow.planHash });
    const rechained = entries.map((entry) => {
      const content = { ...entry, previousHash };
      previousHash = entryHash(content);
      return { ...content, hash: previousHash };
    });
    const forged = { ...narrow, entries: rechained };
    expect(verifyLedgerFile(forged)).toEqual(fault("OUTSIDE_PLAN", 7));
    expect(verifyLedgerFile(forged, head)).toEqual(fault("OUTSIDE_PLAN", 7));
    expect(verifyLedgerFile({ ...narrow, entries }, head)).toEqual(fault("BROKEN_CHAIN", 1));
  });

  test("going back to the first rule, which a trial may only leave", () => {
    const both = ledgerFileSchema.parse(bothRules);
    const bothTrial = { trialId: both.trial.id, planHash: both.planHash, seal: both.seal };
    const { entry, inputs } = firstRuleDrawAfter(both);
    expect(entry.number).toBe(both.entries.length + 1);
    const rechained = { ...both, entries: [...both.entries, entry] };
    expect(verifyLedgerFile(rechained)).toEqual(fault("OLDER_ALGORITHM", entry.number));
    const honest = appendDraw(
      bothTrial,
      designOf(both.plan),
      both.entries.at(-1)!,
      both.secret!,
      inputs,
      earlierOf(both).of(inputs),
    );
    expect(honest.ok && verifyLedgerFile({ ...both, entries: [...both.entries, honest.entry] }).ok).toBe(
      true,
    );
  });

  test("a draw dropped from the middle shows by its group's counts, or by the head", () => {
    const early = mended(entries.filter((entry) => entry.number !== 2));
    expect(verifyLedgerFile({ ...file, entries: early })).toMatchObject({ ok: false });
    expect(verifyLedgerFile({ ...sealedFile, entries: early })).toEqual(fault("COUNTS_DONT_FOLLOW", 2));
    const lastDropped = entries.slice(0, -1);
    expect(verifyLedgerFile({ ...file, entries: lastDropped }).ok).toBe(true);
    expect(verdictOn(lastDropped)).toEqual(fault("TRUNCATED", 28));
  });

  test("while the secret is sealed, a rewritten last draw shows against the published head", () => {
    const rewritten = mended(changed(28, swapTwoArms));
    expect(verifyLedgerFile({ ...sealedFile, entries: rewritten }).ok).toBe(true);
    expect(verdictOn(rewritten, sealedFile)).toEqual(fault("OTHER_HEAD", 28));
    const noDraws = { seal, draws: 0, lastHash: "0".repeat(64) };
    expect(verifyLedgerFile(file, noDraws)).toEqual(fault("OTHER_HEAD", null));
  });

  test("while the secret is sealed, a result that no draw could give is named all the same", () => {
    for (const result of [
      [{ position: 1, arm: "g1-1" }],
      entries[27]!.result.map(({ position }) => ({ position, arm: "another" })),
      entries[27]!.result.map(({ arm }) => ({ position: 1, arm })),
    ]) {
      const impossible = mended(changed(28, () => ({ result })));
      expect(verifyLedgerFile({ ...sealedFile, entries: impossible })).toEqual(fault("NOT_AS_DRAWN", 28));
    }
  });
});

describe("entry by entry", () => {
  test("the first fault is told at once and stays, whatever is added after it", () => {
    const checker = ledgerChecker(ledgerToCheck(file));
    const tampered = changed(5, swapTwoArms);
    const answers = tampered.map((entry) => checker.add(entry));
    expect(answers.slice(0, 4)).toEqual([null, null, null, null]);
    expect(new Set(answers.slice(4).map((answer) => answer?.drawNumber))).toEqual(new Set([5]));
    expect(checker.end(head)).toEqual(fault("CHANGED_ENTRY", 5));
  });

  test("what is wrong before the first entry is told at the first, and without any", () => {
    const checker = ledgerChecker({ ...ledgerToCheck(file), secretHex: "00".repeat(32) });
    expect(checker.end()).toEqual(fault("WRONG_SECRET", null));
    expect(checker.add(entries[0]!)).toEqual(fault("WRONG_SECRET", null));
  });
});

test("whatever the schema lets through gets a verdict, never an exception", () => {
  // Every member of the file replaced in turn by every other value of the file that the schema accepts there.
  const values = [
    0,
    1,
    12,
    2 ** 53 - 1,
    "constructor",
    "toString",
    "g1-1",
    "0".repeat(64),
    NEW_OUTING,
    [],
    null,
    true,
  ];
  const small = { ...file, entries: entries.slice(0, 10) };
  let tried = 0;
  for (const path of pathsOf(small)) {
    for (const value of values) {
      const parsed = ledgerFileSchema.safeParse(replacedAt(small, path, value));
      if (!parsed.success) continue;
      tried += 1;
      for (const candidate of [parsed.data, { ...parsed.data, secret: null }]) {
        expect(typeof verifyLedgerFile(candidate).ok).toBe("boolean");
        const withHashes = { ...candidate, entries: mended(candidate.entries) };
        expect(typeof verifyLedgerFile(withHashes, head).ok).toBe("boolean");
      }
    }
  }
  expect(tried).toBeGreaterThan(100);
  const surrogate = { ...file, plan: { ...file.plan, question: "\ud800" } } as LedgerFile;
  expect(verifyLedgerFile(surrogate)).toEqual(fault("PLAN_CHANGED", null));
});

type Path = readonly (string | number)[];

/** Paths of all members; of entries the 2nd and the 10th, a return, and of their arms the first. */
function pathsOf(value: unknown, path: Path = []): Path[] {
  if (path[0] === "entries" && path.length === 2 && path[1] !== 1 && path[1] !== 9) return [];
  if (path[3] === "arms" && path.length === 5 && path[4] !== 0) return [];
  if (typeof value !== "object" || value === null) return [path];
  return [
    path,
    ...Object.entries(value).flatMap(([key, member]) =>
      pathsOf(member, [...path, Array.isArray(value) ? Number(key) : key]),
    ),
  ];
}

function replacedAt(value: unknown, [key, ...rest]: Path, by: unknown): unknown {
  if (key === undefined) return by;
  if (Array.isArray(value)) return value.map((item, at) => (at === key ? replacedAt(item, rest, by) : item));
  const member = (value as Record<string, unknown>)[key];
  return { ...(value as object), [key]: replacedAt(member, rest, by) };
}
