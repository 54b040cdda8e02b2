import { randomBytes } from "node:crypto";
import { LEDGER_BYTES_AT_MOST } from "@/lib/engine/design/read-ledger-file";
import { LEDGER_END, ledgerLines, ledgerStart } from "@/lib/engine/design/write-ledger-file";
import type { LedgerFile } from "@/shared/schemas/ledger-file";
import type { OfflineDesign } from "@/shared/schemas/offline-design";
import { type CommandIo, EXIT_OK, EXIT_REFUSED } from "../io";
import { readSecret } from "../secret-file";
import { describeFaults, shown } from "../table/faults";
import { allocationJson, allocationTable } from "./allocation-report";
import { type Paths, readArguments } from "./arguments";
import { readDesign } from "./design-file";
import { type Drawn, drawOutings } from "./draw-outings";
import { type LedgerPlace, NotKept, takeLedgerPlace } from "./ledger-place";
import { type ListedOuting, readOutings } from "./outing-list";
import { continueLedger, newLedger, type StartedLedger } from "./start-ledger";

export const DRAW_HELP = `draw picks the recipes of sets of boxes by chance, off line, and keeps a ledger that verify can check.

  DESIGN.json    what the draws rest on; it can't change once a ledger was begun with it:
                 {"form": "grainlot-design/1", "title": "…",
                  "arms": [{"code": "oats-firm", "grain": "oats"}, …],
                  "boxesPerSet": {"min": 4, "max": 6}, "climateGroups": ["mild-wet", …],
                  "meetAgainShare": 0.2, "fetchRule": {"kind": "by-growth"}}
                 or {"kind": "same-day", "afterDays": 5}, {"kind": "staged", "afterDays": [4, 6, 8]}
  OUTINGS.csv    outing,household,group,region,boxes,grains and, if wanted, returns: the household's
                 abandoned outing whose recipes come back; grains are separated by blanks;
                 pseudonyms, not names: the ledger becomes public

  --ledger FILE      the ledger, begun or lengthened
  --new-secret FILE  begins a ledger: makes the secret and keeps it in a new file that only you can read
  --secret FILE      goes on with a ledger by the secret it was begun with
  --json             the draws as JSON, with the time and its salt, instead of a table

Publish the seal before the first draw: an OUTINGS.csv with nothing but its header begins a ledger without any.
Whoever has the secret can foresee the draws, so keep it from those who cook and judge. When all is judged,
publish the ledger with the secret in the place of null.
`;

const NOTHING_DRAWN = "Nothing was drawn; mend it and run the command again.";

/** `grainlot draw`: the allocations on stdout and the ledger in its file, or 2, the reasons on stderr and no change. */
export async function runDraw(argv: readonly string[], io: CommandIo): Promise<number> {
  const given = readArguments(argv, io.directory);
  if (!given.ok) return refuse(io, given.message);
  if (given.help) {
    io.stdout(DRAW_HELP);
    return EXIT_OK;
  }
  const { names, paths, json } = given;
  const design = readDesign(paths.design);
  if (!design.ok) {
    for (const fault of design.faults) io.stderr(`${names.design}: ${fault}\n`);
    io.stderr(`${NOTHING_DRAWN}\n`);
    return EXIT_REFUSED;
  }
  const list = await readOutings(paths.outings, design.design);
  if (!list.ok) {
    io.stderr(describeFaults(names.outings, list.faults, NOTHING_DRAWN));
    return EXIT_REFUSED;
  }
  if (list.ignored.length > 0) {
    io.stderr(`grainlot draw: columns not used: ${list.ignored.map(shown).join(", ")}.\n`);
  }
  const taken = takeLedgerPlace(paths.ledger);
  if (!taken.ok) return refuse(io, taken.message);
  try {
    return drawInto(taken.place, { io, names, paths, json, design: design.design, outings: list.outings });
  } catch (error) {
    if (error instanceof NotKept) return refuse(io, error.message);
    throw error;
  } finally {
    taken.place.release();
  }
}

interface Work {
  readonly io: CommandIo;
  /** As the user wrote them. */
  readonly names: { readonly outings: string; readonly ledger: string };
  readonly paths: Paths;
  readonly json: boolean;
  readonly design: OfflineDesign;
  readonly outings: readonly ListedOuting[];
}

function drawInto(place: LedgerPlace, { io, names, paths, json, design, outings }: Work): number {
  const started = startLedger(paths, design);
  if (!started.ok) return refuse(io, started.message);
  const { ledger, secretHex, isNew } = started;
  if (outings.length === 0 && !isNew) return refuse(io, `${names.outings} lists no outing to draw for.`);
  const result = drawOutings(ledger, secretHex, outings);
  if (!result.ok) {
    io.stderr(describeFaults(names.outings, result.faults, NOTHING_DRAWN));
    return EXIT_REFUSED;
  }
  const { drawn } = result;
  const { entries, ...head } = ledger;
  const whole: LedgerFile = { ...head, entries: [...entries, ...drawn.map(({ entry }) => entry)] };
  const text = ledgerStart(head) + ledgerLines(whole.entries, true) + LEDGER_END;
  if (Buffer.byteLength(text) > LEDGER_BYTES_AT_MOST) {
    return refuse(io, "the ledger would grow over 40 MB, more than can be checked. Begin a new one.");
  }
  place.keep(text, isNew ? { path: paths.secret, hex: secretHex } : null);
  io.stdout(json ? allocationJson(whole, drawn) : allocationTable(whole, drawn));
  io.stderr(summary(names.ledger, whole, drawn));
  return EXIT_OK;
}

function startLedger(paths: Paths, design: OfflineDesign): StartedLedger {
  if (paths.secretIsNew) return newLedger(paths.ledger, design, randomBytes(32).toString("hex"));
  const secret = readSecret(paths.secret);
  if (!secret.ok) return { ok: false, message: `the file named by --secret: ${secret.message}` };
  return continueLedger(paths.ledger, design, secret.secretHex);
}

function summary(name: string, { seal, entries }: LedgerFile, drawn: readonly Drawn[]): string {
  const last = entries.at(-1);
  return [
    `seal ${seal}`,
    `${drawn.length} drawn; ${name} now holds ${entries.length} draws${last ? `, the last with hash ${last.hash}` : ""}.`,
  ]
    .map((line) => `${line}\n`)
    .join("");
}

function refuse(io: CommandIo, message: string): number {
  io.stderr(`grainlot draw: ${message}\n`);
  return EXIT_REFUSED;
}
