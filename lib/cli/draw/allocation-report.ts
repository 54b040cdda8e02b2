import { receiptOf } from "@/lib/engine/design/ledger";
import type { LedgerFile } from "@/shared/schemas/ledger-file";
import type { Drawn } from "./draw-outings";

const COLUMNS = ["outing", "position", "recipe", "grain", "fetch_after_days", "draw", "receipt"];

/** The allocations as a table, one line per box. All fields are codes or numbers, so none needs quotes. */
export function allocationTable(ledger: LedgerFile, drawn: readonly Drawn[]): string {
  const rows = drawn.flatMap((one) => {
    const { outing, boxes, draw, receipt, fetchAfterDays } = outingReport(ledger, one);
    return boxes.map(({ position, arm, grain }) => [
      outing,
      position,
      arm,
      grain,
      fetchAfterDays ?? "",
      draw,
      receipt,
    ]);
  });
  return [COLUMNS, ...rows].map((fields) => `${fields.join(",")}\n`).join("");
}

/** The draws for other programs; `timeSalt` is what shows later when a draw was made, and stays private. */
export function allocationJson(ledger: LedgerFile, drawn: readonly Drawn[]): string {
  const { trial, seal, planHash, entries } = ledger;
  const report = {
    trial,
    seal,
    planHash,
    draws: entries.length,
    lastHash: entries.at(-1)?.hash ?? null,
    outings: drawn.map((one) => outingReport(ledger, one)),
  };
  return `${JSON.stringify(report, null, 2)}\n`;
}

function outingReport(ledger: LedgerFile, { listed, entry, drawnAt, timeSaltHex }: Drawn) {
  const { trial, planHash, seal, plan } = ledger;
  const grains = new Map(plan.arms.map(({ code, grain }) => [code, grain]));
  return {
    outing: listed.outing,
    draw: entry.number,
    hash: entry.hash,
    receipt: receiptOf({ trialId: trial.id, planHash, seal }, entry).shortHash,
    fetchAfterDays: entry.fetchAfterDays ?? null,
    drawnAt,
    timeSalt: timeSaltHex,
    boxes: entry.result.map(({ position, arm }) => ({ position, arm, grain: grains.get(arm)! })),
  };
}
