import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { planHash } from "@/lib/engine/design/plan";
import { LEDGER_BYTES_AT_MOST } from "@/lib/engine/design/read-ledger-file";
import { sha256Hex } from "@/lib/engine/random/hash";
import type { LedgerEntry } from "@/shared/schemas/draw";
import type { LedgerFile } from "@/shared/schemas/ledger-file";
import { invented } from "../../fixtures/ledger/make-ledger";
import { chainedAnew, headOf, otherwise } from "../../fixtures/ledger/tamper";
import { runIn, scratchFolder } from "../capture";

const folder = scratchFolder();
afterAll(folder.remove);

const ledger = invented(60);
const other = invented(5, {
  title: "Another invented trial",
  trialId: "00000000-0000-4000-8000-00000000e1e2",
  secretHex: sha256Hex("another invented secret"),
});
const { entries } = ledger;
const published = headOf(ledger);
const line = ({ seal, draws, lastHash } = published) => `${seal},${draws},${lastHash}`;

/** What the command says of a ledger file, as JSON and exit code. */
async function verify(content: unknown, ...options: string[]) {
  folder.write("ledger.json", typeof content === "string" ? content : JSON.stringify(content));
  const { exitCode, stdout, stderr } = await runIn(
    folder.path,
    "verify",
    "ledger.json",
    "--json",
    ...options,
  );
  return { exitCode, stderr, report: stdout === "" ? null : JSON.parse(stdout) };
}

describe("grainlot verify on a ledger as it was drawn", () => {
  it("verifies every draw, and the head where one is given", async () => {
    for (const options of [
      [],
      ["--head", line()],
      ["--head", ` ${line().toUpperCase().replaceAll(",", " , ")} `],
    ]) {
      const { exitCode, report, stderr } = await verify(ledger, ...options);
      expect([exitCode, stderr]).toEqual([0, ""]);
      expect(report).toEqual({
        verified: true,
        replayed: true,
        problem: null,
        drawNumber: null,
        trial: ledger.trial,
        seal: ledger.seal,
        planHash: ledger.planHash,
        draws: 60,
        lastHash: entries[59]!.hash,
        head: options.length === 0 ? null : published,
      });
    }
  });

  it("takes the head from a file, as the line or as JSON", async () => {
    folder.write("head.txt", `${line()}\n`);
    folder.write("head.json", JSON.stringify(published));
    for (const file of ["head.txt", "head.json"]) {
      expect(await verify(ledger, "--head", file)).toMatchObject({
        exitCode: 0,
        report: { head: published },
      });
    }
  });

  it("accepts an earlier head: the ledger may have grown since, and says by how much", async () => {
    const earlier = { seal: ledger.seal, draws: 41, lastHash: entries[40]!.hash };
    expect((await verify(ledger, "--head", line(earlier))).exitCode).toBe(0);
    const { stdout } = await runIn(folder.path, "verify", "ledger.json", "--head", line(earlier));
    expect(stdout).toContain("verified. All 60 draws");
    expect(stdout).toContain("published after 41 draws. 19 more were drawn since.");
  });

  it("says when nothing was compared with a published head, and when no draw could be made again", async () => {
    const plain = async (content: LedgerFile) => {
      folder.write("plain.json", JSON.stringify(content));
      return (await runIn(folder.path, "verify", "plain.json")).stdout;
    };
    expect(await plain(ledger)).toContain("No head was given");
    expect(await plain({ ...ledger, secret: null })).toContain("still sealed, so none was made again");
    expect((await verify({ ...ledger, secret: null })).report).toMatchObject({
      verified: true,
      replayed: false,
    });
  });

  it("makes a sealed ledger's draws again by a secret kept apart", async () => {
    folder.write("secret.txt", `${ledger.secret}\n`);
    const sealed = { ...ledger, secret: null };
    expect(await verify(sealed, "--secret", "secret.txt")).toMatchObject({
      exitCode: 0,
      report: { replayed: true },
    });
    folder.write("secret.txt", sha256Hex("not it"));
    expect(await verify(sealed, "--secret", "secret.txt")).toMatchObject({
      exitCode: 1,
      report: { problem: "WRONG_SECRET" },
    });
  });

  // Made by the Python implementation in fixtures/reference/draw/generate.py, which shares no code with this one.
  it.each(["ledger-both-rules.json", "ledger-staged.json"])(
    "verifies %s, drawn by another program",
    async (name) => {
      const reference = fileURLToPath(new URL("../../fixtures/reference/draw", import.meta.url));
      const { exitCode, stdout } = await runIn(reference, "verify", name, "--json");
      expect([exitCode, JSON.parse(stdout).replayed]).toEqual([0, true]);
    },
  );

  it("verifies a ledger without draws", async () => {
    const { report, exitCode } = await verify({ ...ledger, entries: [] });
    expect([exitCode, report.verified, report.draws]).toEqual([0, true, 0]);
  });
});

describe("a tampered copy is named, with the draw where it shows", () => {
  const swapped = [...entries];
  [swapped[7], swapped[8]] = [swapped[8]!, swapped[7]!];
  const changed = entries.map((entry, i) => (i === 20 ? otherwise(entry) : entry));
  const otherCount = entries.map((entry, i) =>
    i === 30
      ? {
          ...entry,
          inputs: { ...entry.inputs, arms: entry.inputs.arms.map((arm) => ({ ...arm, drawnBefore: 0 })) },
        }
      : entry,
  );
  const withInputs = (at: number, inputs: Partial<LedgerEntry["inputs"]>) =>
    entries.with(at, { ...entries[at]!, inputs: { ...entries[at]!.inputs, ...inputs } });
  const uncounted = entries[13]!.inputs.arms.map((arm) => ({ ...arm, drawnBefore: 0 }));
  const otherPlan = { ...ledger.plan, endsOn: "2031-10-31" } as LedgerFile["plan"];
  const rewritten = chainedAnew(ledger, entries.slice(0, 40));

  it.each<[what: string, content: LedgerFile, problem: string, drawNumber: number | null, head?: string]>([
    ["a changed allocation", { ...ledger, entries: changed }, "CHANGED_ENTRY", 21],
    ["a changed allocation, chained anew", chainedAnew(ledger, changed), "NOT_AS_DRAWN", 21],
    ["a dropped draw", { ...ledger, entries: entries.toSpliced(11, 1) }, "BROKEN_CHAIN", 12],
    ["swapped order", { ...ledger, entries: swapped }, "BROKEN_CHAIN", 8],
    [
      "a second draw for an outing",
      chainedAnew(ledger, entries.toSpliced(5, 0, entries[4]!)),
      "SECOND_DRAW_FOR_OUTING",
      6,
    ],
    [
      "more boxes than the plan allows, chained anew",
      chainedAnew(ledger, withInputs(13, { boxes: 9 })),
      "OUTSIDE_PLAN",
      14,
    ],
    [
      "a climate group the plan doesn't have, chained anew",
      chainedAnew(ledger, withInputs(13, { climateGroup: "nowhere", arms: uncounted })),
      "OUTSIDE_PLAN",
      14,
    ],
    [
      "a return of a later draw, chained anew",
      chainedAnew(ledger, withInputs(13, { returns: entries[20]!.inputs.outingId })),
      "RETURN_DOESNT_FOLLOW",
      14,
    ],
    [
      "the first rule named, chained anew",
      chainedAnew(ledger, entries.with(13, { ...entries[13]!, algorithm: "grainlot-draw/1" })),
      "OLDER_ALGORITHM",
      14,
    ],
    ["counts that don't follow", chainedAnew(ledger, otherCount), "COUNTS_DONT_FOLLOW", 31],
    [
      "a plan that isn't Unicode",
      { ...ledger, plan: { ...ledger.plan, question: "\ud800" } as LedgerFile["plan"] },
      "PLAN_CHANGED",
      null,
    ],
    ["a wrong secret", { ...ledger, secret: sha256Hex("not it") }, "WRONG_SECRET", null],
    ["a plan that was altered", { ...ledger, plan: otherPlan }, "PLAN_CHANGED", null],
    [
      "a plan that was altered with its hash",
      { ...ledger, plan: otherPlan, planHash: planHash(otherPlan) },
      "BROKEN_CHAIN",
      1,
    ],
    ["a truncated tail", { ...ledger, entries: entries.slice(0, 55) }, "TRUNCATED", 56, line()],
    ["swapped order, chained anew", chainedAnew(ledger, swapped), "COUNTS_DONT_FOLLOW", 8],
    [
      "a published hash the ledger never had",
      rewritten,
      "OTHER_HEAD",
      40,
      line({ ...published, draws: 40, lastHash: sha256Hex("elsewhere") }),
    ],
  ])("%s", async (_, content, problem, drawNumber, head) => {
    const { exitCode, report, stderr } = await verify(content, ...(head ? ["--head", head] : []));
    expect([exitCode, stderr]).toEqual([1, ""]);
    expect(report).toMatchObject({ verified: false, replayed: false, problem, drawNumber, lastHash: null });
    const { exitCode: plainCode, stdout } = await runIn(
      folder.path,
      "verify",
      "ledger.json",
      ...(head ? ["--head", head] : []),
    );
    expect(plainCode).toBe(1);
    expect(stdout).toContain("ledger.json: does not stand.");
    if (drawNumber !== null) expect(stdout).toContain(`\ndraw ${drawNumber}: `);
  });

  it("a title that would write over the verdict", async () => {
    const title = "\u001b[1A\u001b[2Kledger.json: verified.\r\u202e";
    folder.write(
      "ledger.json",
      JSON.stringify({ ...ledger, trial: { ...ledger.trial, title }, entries: changed }),
    );
    const { stdout } = await runIn(folder.path, "verify", "ledger.json");
    expect(stdout).toContain("ledger.json: does not stand.");
    expect(stdout).not.toMatch(/[^\P{C}\n]/u);
  });

  it("a whole ledger made up under another secret passes alone, and not against the published head", async () => {
    const forged = invented(60, { secretHex: sha256Hex("a forger's secret") });
    expect((await verify(forged)).exitCode).toBe(0);
    expect(await verify(forged, "--head", line())).toMatchObject({ exitCode: 2, report: null });
  });
});

describe("what can't be checked is refused with code 2 and a sentence", () => {
  it.each<[what: string, content: unknown, message: RegExp, options?: string[]]>([
    [
      "another trial's head",
      ledger,
      /the head is another trial's, or the ledger was made up under another secret/,
      ["--head", line(headOf(other))],
    ],
    [
      "a rule unknown here",
      chainedAnew(
        ledger,
        entries.map((e) => ({ ...e, algorithm: "grainlot-draw/9" })),
      ),
      /draw 1: .*newer version/,
    ],
    ["another form", { ...ledger, form: "grainlot-ledger/2" }, /a form that this version/],
    ["no JSON", `{"form": "grainlot-ledger/1", `, /not JSON text/],
    ["an empty file", "", /not JSON text/],
    ["other JSON", { rows: [] }, /no ledger, or a part of it/],
    ["a list", [1, 2, 3], /no ledger, or a part of it/],
    ["null", null, /no ledger/],
    [
      "a misshapen draw",
      { ...ledger, entries: entries.with(3, { ...entries[3]!, result: [] }) },
      /entries\[3\]\.result/,
    ],
    [
      "members nobody knows",
      { ...ledger, entries: entries.with(2, { ...entries[2]!, note: "x" } as never) },
      /entries\[2\]/,
    ],
    ["a head that is none", ledger, /neither|no such line, and no file/, ["--head", "12,13"]],
    [
      "a secret that is none",
      ledger,
      /no secret: a secret's file holds 64 hex digits/,
      ["--secret", "ledger.json.none"],
    ],
  ])("%s", async (_, content, message, options = []) => {
    folder.write("ledger.json.none", "swordfish");
    const { exitCode, report, stderr } = await verify(content, ...options);
    expect([exitCode, report]).toEqual([2, null]);
    expect(stderr).toMatch(message);
    expect(stderr).not.toContain("swordfish");
  });

  it("a file of 50 MB, a folder and a file that isn't there", async () => {
    folder.write("large.json", Buffer.alloc(50_000_000, " "));
    expect(50_000_000).toBeGreaterThan(LEDGER_BYTES_AT_MOST);
    for (const [name, message] of [
      ["large.json", "larger than 40 MB"],
      [".", "a folder"],
      ["missing.json", "no such file"],
    ] as const) {
      const { exitCode, stdout, stderr } = await runIn(folder.path, "verify", name);
      expect([exitCode, stdout]).toEqual([2, ""]);
      expect(stderr).toContain(message);
    }
  });

  it.each([
    [[], /which ledger/],
    [["a.json", "b.json"], /one ledger at a time/],
    [["a.json", "--haed", "x"], /--haed/],
  ])("misuse %j", async (argv, message) => {
    const { exitCode, stderr } = await runIn(folder.path, "verify", ...argv);
    expect(exitCode).toBe(2);
    expect(stderr).toMatch(message);
  });
});
