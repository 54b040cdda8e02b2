import type { LedgerVerdict } from "@/lib/engine/design/verify-ledger";
import type { PublishedHead } from "@/shared/schemas/draw";
import type { LedgerFile } from "@/shared/schemas/ledger-file";
import { problemWords } from "./problem-words";

/** The verdict as a person reads it in a terminal. */
export function verifyReport(
  file: string,
  ledger: LedgerFile,
  verdict: LedgerVerdict,
  head: PublishedHead | undefined,
): string {
  const { trial, seal, planHash } = ledger;
  const facts = [
    `trial      ${harmless(trial.title)} (${trial.id})`,
    `seal       ${seal}`,
    `plan hash  ${planHash}`,
  ];
  if (!verdict.ok) {
    const place = verdict.drawNumber === null ? "" : `draw ${verdict.drawNumber}: `;
    return lines(`${file}: does not stand.`, `${place}${problemWords[verdict.problem]}`, ...facts);
  }
  const { draws, lastHash } = verdict.head;
  const found = verdict.replayed
    ? `${file}: verified. All ${draws} draws came out again from the secret.`
    : `${file}: the chain of ${draws} draws is whole. The secret is still sealed, so none was made again.`;
  return lines(found, ...facts, `last hash  ${lastHash}`, comparison(draws, head));
}

/** No hash covers a title: one with control characters could write over the verdict. */
function harmless(title: string): string {
  return title.replace(/[\p{Cc}\u202a-\u202e\u2066-\u2069]/gu, "\ufffd");
}

function comparison(draws: number, head: PublishedHead | undefined): string {
  if (head === undefined) {
    return "No head was given: compare seal and last hash with the trial's page, or give them with --head.";
  }
  const later = draws - head.draws;
  const more = later === 0 ? "" : ` ${later} more were drawn since.`;
  return `It agrees with the head that was published after ${head.draws} draws.${more}`;
}

/** The verdict for other programs. */
export function verifyJson(
  ledger: LedgerFile,
  verdict: LedgerVerdict,
  head: PublishedHead | undefined,
): string {
  const { trial, seal, planHash, entries } = ledger;
  const report = {
    verified: verdict.ok,
    replayed: verdict.ok && verdict.replayed,
    problem: verdict.ok ? null : verdict.problem,
    drawNumber: verdict.ok ? null : verdict.drawNumber,
    trial,
    seal,
    planHash,
    draws: entries.length,
    lastHash: verdict.ok ? verdict.head.lastHash : null,
    head: head ?? null,
  };
  return `${JSON.stringify(report, null, 2)}\n`;
}

function lines(...texts: readonly string[]): string {
  return texts.map((text) => `${text}\n`).join("");
}
