import { randomBytes } from "node:crypto";
import { type DrawRefusal, designOf } from "@/lib/engine/design/draw";
import { EarlierDraws } from "@/lib/engine/design/history";
import { appendDraw, timeHashOf } from "@/lib/engine/design/ledger";
import { ledgerOutingId } from "@/lib/engine/design/ledger-outing-id";
import { type DrawInputs, drawInputsSchema, type LedgerEntry } from "@/shared/schemas/draw";
import type { LedgerFile } from "@/shared/schemas/ledger-file";
import { FaultList, type Faults, shown } from "../table/faults";
import type { ListedOuting } from "./outing-list";

/** A draw just made, with the time and the private salt behind its `timeHash`. */
export interface Drawn {
  readonly listed: ListedOuting;
  readonly entry: LedgerEntry;
  readonly drawnAt: string;
  readonly timeSaltHex: string;
}

export type DrawnOutings =
  | { readonly ok: true; readonly drawn: readonly Drawn[] }
  | { readonly ok: false; readonly faults: Faults };

/**
 * Draws for the listed outings in their order, after all of the ledger's: every one of them, or none and what is
 * wrong. The ledger stands and the secret is its own.
 */
export function drawOutings(
  ledger: LedgerFile,
  secretHex: string,
  listed: readonly ListedOuting[],
): DrawnOutings {
  const faults = new FaultList();
  const series = new DrawSeries(ledger, secretHex);
  const drawn: Drawn[] = [];
  for (const outing of listed) {
    const result = series.draw(outing);
    if (result.ok) drawn.push(result.drawn);
    else faults.add({ ...result.fault, line: outing.line });
  }
  return faults.isEmpty ? { ok: true, drawn } : { ok: false, faults };
}

type OneDraw =
  | { readonly ok: true; readonly drawn: Drawn }
  | { readonly ok: false; readonly fault: { readonly kind: string; readonly message: string } };

class DrawSeries {
  readonly #trial: { readonly trialId: string; readonly planHash: string; readonly seal: string };
  readonly #earlier: EarlierDraws;
  /** By the ledger's id of an outing. */
  readonly #drawNumbers = new Map<string, number>();
  readonly #returned = new Set<string>();
  #previous: LedgerEntry | null = null;

  constructor(
    private readonly ledger: LedgerFile,
    private readonly secretHex: string,
  ) {
    this.#trial = { trialId: ledger.trial.id, planHash: ledger.planHash, seal: ledger.seal };
    this.#earlier = new EarlierDraws(ledger.plan.arms.map(({ code }) => code));
    for (const entry of ledger.entries) this.#add(entry);
  }

  draw(listed: ListedOuting): OneDraw {
    const outingId = ledgerOutingId(this.secretHex, listed.outing);
    const before = this.#drawNumbers.get(outingId);
    if (before !== undefined) {
      const message = `Outing ${shown(listed.outing)} was drawn for already (draw ${before}). Remove the line.`;
      return { ok: false, fault: { kind: "outings drawn for before", message } };
    }
    const returns = listed.returns === null ? undefined : ledgerOutingId(this.secretHex, listed.returns);
    if (returns !== undefined && !this.#canReturn(returns, listed.household)) {
      const message =
        `Household ${shown(listed.household)} has no outing ${shown(listed.returns!)} whose allocation could come ` +
        "back, or it has come back already. Leave the field empty for a draw of its own.";
      return { ok: false, fault: { kind: "returns that can't be", message } };
    }
    const drawnAt = new Date().toISOString();
    const timeSaltHex = randomBytes(16).toString("hex");
    const inputs = this.#inputs(listed, { outingId, returns, timeHash: timeHashOf(timeSaltHex, drawnAt) });
    const design = designOf(this.ledger.plan);
    const history = this.#earlier.of(inputs);
    const result = appendDraw(this.#trial, design, this.#previous, this.secretHex, inputs, history);
    if (!result.ok) return { ok: false, fault: refusalFault(result, listed) };
    this.#add(result.entry);
    return { ok: true, drawn: { listed, entry: result.entry, drawnAt, timeSaltHex } };
  }

  #canReturn(outingId: string, household: string): boolean {
    return this.#earlier.entryOf(outingId)?.inputs.household === household && !this.#returned.has(outingId);
  }

  #inputs(
    { household, group, region, boxes, grains }: ListedOuting,
    made: Pick<DrawInputs, "outingId" | "returns" | "timeHash">,
  ): DrawInputs {
    const drawnBefore = this.#earlier.drawnBefore(group);
    const arms = this.ledger.plan.arms.map(({ code, grain }) => ({
      code,
      grain,
      drawnBefore: drawnBefore.get(code) ?? 0,
    }));
    return drawInputsSchema.parse({
      ...made,
      household,
      climateGroup: group,
      region,
      boxes,
      grainsAtHand: grains,
      arms,
    });
  }

  #add(entry: LedgerEntry): void {
    this.#earlier.add(entry);
    this.#drawNumbers.set(entry.inputs.outingId, entry.number);
    if (entry.inputs.returns !== undefined) this.#returned.add(entry.inputs.returns);
    this.#previous = entry;
  }
}

function refusalFault({ reason }: DrawRefusal, { grains, boxes }: ListedOuting) {
  const at = grains.join(", ");
  const message = {
    BAD_BOX_COUNT: `A set has 2 to 12 boxes; got ${boxes}.`,
    NO_ARM_POSSIBLE: `No recipe can be cooked from ${at}. A grain of the design must be at hand.`,
    ONE_ARM_ONLY: `Only one recipe can be cooked from ${at}: its boxes would compare nothing. Get a second grain.`,
  }[reason];
  return { kind: "outings that can't be drawn for", message };
}
