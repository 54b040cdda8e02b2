import { describe, expect, it, vi } from "vitest";
import { type CheckRequest, checkLedger } from "@/app/trials/[slug]/proof/_components/check-ledger";
import type { LedgerProblem } from "@/lib/engine/design/ledger-problem";
import { sha256Hex } from "@/lib/engine/random/hash";
import type { LedgerEntry } from "@/shared/schemas/draw";
import { invented } from "../../fixtures/ledger/make-ledger";
import { chainedAnew, headOf, otherwise } from "../../fixtures/ledger/tamper";

const ledger = invented(120);
const page = { trialId: ledger.trial.id, published: headOf(ledger) };

const check = (
  content: unknown,
  changes: Partial<CheckRequest> = {},
  report = (_: number, _of: number) => {},
) => {
  const text = typeof content === "string" ? content : JSON.stringify(content);
  return checkLedger({ ...page, from: { file: new Blob([text]) }, ...changes }, report);
};

describe("a check in the reader's browser", () => {
  it("makes every draw again and tells how far it is", async () => {
    const reports: [number, number][] = [];
    const outcome = await check(ledger, {}, (checked, of) => reports.push([checked, of]));
    expect(outcome).toEqual({
      kind: "verdict",
      draws: 120,
      verdict: { ok: true, replayed: true, head: { draws: 120, lastHash: ledger.entries[119]!.hash } },
    });
    expect(reports).toEqual([
      [0, 120],
      [100, 120],
    ]);
  });

  it("names the first draw that doesn't match, and what the page's own head gives away", async () => {
    const changed = ledger.entries.map((entry, i) => (i === 77 ? otherwise(entry) : entry));
    expect(await check(chainedAnew(ledger, changed))).toMatchObject({
      verdict: { ok: false, problem: "NOT_AS_DRAWN", drawNumber: 78 },
    });
    expect(await check({ ...ledger, entries: ledger.entries.slice(0, 100) })).toMatchObject({
      verdict: { ok: false, problem: "TRUNCATED", drawNumber: 101 },
    });
    const forged = invented(120, { secretHex: sha256Hex("a forger's secret") });
    expect(await check(forged)).toMatchObject({ verdict: { ok: false, problem: "OTHER_TRIAL" } });
  });

  const forgedAt13 = (change: (entry: LedgerEntry) => Partial<LedgerEntry>) =>
    chainedAnew(ledger, ledger.entries.with(13, { ...ledger.entries[13]!, ...change(ledger.entries[13]!) }));

  it.each<[LedgerProblem, ReturnType<typeof forgedAt13>]>([
    ["OUTSIDE_PLAN", forgedAt13(({ inputs }) => ({ inputs: { ...inputs, boxes: 9 } }))],
    ["OUTSIDE_PLAN", forgedAt13(() => ({ fetchAfterDays: 5 }))],
    ["OLDER_ALGORITHM", forgedAt13(() => ({ algorithm: "grainlot-draw/1" }))],
    [
      "RETURN_DOESNT_FOLLOW",
      forgedAt13(({ inputs }) => ({ inputs: { ...inputs, returns: ledger.entries[20]!.inputs.outingId } })),
    ],
    ["NOT_AS_DRAWN", forgedAt13(({ inputs }) => ({ inputs: { ...inputs, household: "h-new" } }))],
    [
      "SECOND_DRAW_FOR_OUTING",
      forgedAt13(({ inputs }) => ({ inputs: { ...inputs, outingId: ledger.entries[0]!.inputs.outingId } })),
    ],
    ["ARMS_CHANGED", forgedAt13(({ inputs }) => ({ inputs: { ...inputs, arms: inputs.arms.slice(1) } }))],
    ["UNKNOWN_ALGORITHM", forgedAt13(() => ({ algorithm: "grainlot-draw/9" }))],
  ])("names %s at the 14th draw, though every hash is mended", async (problem, forged) => {
    expect(await check(forged)).toMatchObject({ verdict: { ok: false, problem, drawNumber: 14 } });
  });

  it("reads past a byte order mark, and not what was cut off within a letter", async () => {
    expect(await check(`\ufeff${JSON.stringify(ledger)}`)).toMatchObject({ verdict: { ok: true } });
    const bytes = new TextEncoder().encode(
      JSON.stringify({ ...ledger, trial: { ...ledger.trial, title: "é" } }),
    );
    const cut = new Blob([bytes.slice(0, bytes.indexOf(0xc3) + 1)]);
    expect(await check("", { from: { file: cut } })).toMatchObject({ reason: "NOT_JSON" });
  });

  it("knows another trial's ledger before it checks it", async () => {
    const other = invented(3, { title: "Elsewhere", trialId: "00000000-0000-4000-8000-00000000e1e3" });
    expect(await check(other)).toEqual({ kind: "other-trial", title: "Elsewhere" });
  });

  it.each([
    ["no JSON", "{", { reason: "NOT_JSON", at: null }],
    ["another form", { ...ledger, form: "grainlot-ledger/7" }, { reason: "OTHER_FORM", at: "form" }],
    ["other JSON", { hello: 1 }, { reason: "NOT_A_LEDGER", at: "form" }],
    ["a misshapen draw", { ...ledger, entries: [7] }, { reason: "NOT_A_LEDGER", at: "entries[0]" }],
    ["entries that are no list", { ...ledger, entries: {} }, { reason: "NOT_A_LEDGER", at: "entries" }],
    ["more than 40 MB", " ".repeat(40 * 1024 * 1024 + 1), { reason: "TOO_LARGE", at: null }],
  ])("refuses %s", async (_, content, expected) => {
    expect(await check(content)).toEqual({ kind: "refused", ...expected });
  });

  it("says when the ledger can't be fetched", async () => {
    const answers = [
      () => Promise.reject(new TypeError("offline")),
      async () => new Response("", { status: 500 }),
    ];
    for (const answer of answers) {
      vi.stubGlobal("fetch", answer);
      const outcome = await check("", { from: { url: "/trials/x/ledger" } });
      expect(outcome).toEqual({ kind: "refused", reason: "UNREACHABLE", at: null });
    }
    vi.unstubAllGlobals();
  });
});
