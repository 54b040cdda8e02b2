import { randomUUID } from "node:crypto";
import { existsSync } from "node:fs";
import { sealOf } from "@/lib/engine/design/ledger";
import { planHash } from "@/lib/engine/design/plan";
import { verifyLedgerFile } from "@/lib/engine/design/verify-ledger";
import { LEDGER_FORM, type LedgerFile } from "@/shared/schemas/ledger-file";
import type { OfflineDesign } from "@/shared/schemas/offline-design";
import { problemWords } from "../verify/problem-words";
import { readLedger } from "../verify/read-ledger";

export type StartedLedger =
  | { readonly ok: true; readonly ledger: LedgerFile; readonly secretHex: string; readonly isNew: boolean }
  | { readonly ok: false; readonly message: string };

/** A ledger without draws; refused where one stands already. */
export function newLedger(path: string, design: OfflineDesign, secretHex: string): StartedLedger {
  if (existsSync(path)) {
    return refuse("the ledger exists. Go on with it by --secret FILE, or name a new one.");
  }
  const ledger: LedgerFile = {
    form: LEDGER_FORM,
    trial: { id: randomUUID(), title: design.title },
    plan: design,
    planHash: planHash(design),
    seal: sealOf(secretHex),
    secret: null,
    entries: [],
  };
  return { ok: true, ledger, secretHex, isNew: true };
}

/** A ledger that stands under this secret and rests on this design; anything else is refused. */
export function continueLedger(path: string, design: OfflineDesign, secretHex: string): StartedLedger {
  if (!existsSync(path)) return refuse("there is no such ledger. Begin it with --new-secret FILE.");
  const read = readLedger(path);
  if (!read.ok) return refuse(`the ledger: ${read.message}`);
  const { ledger } = read;
  if (ledger.secret !== null) {
    return refuse(
      "the ledger's secret is published, so further draws could be foreseen. Begin a new ledger.",
    );
  }
  if (ledger.planHash !== planHash(design)) {
    return refuse(
      "the ledger was begun with another design, which can't change. Use that one, or begin a new ledger.",
    );
  }
  const verdict = verifyLedgerFile({ ...ledger, secret: secretHex });
  if (!verdict.ok) {
    const place = verdict.drawNumber === null ? "" : `draw ${verdict.drawNumber}: `;
    return refuse(`the ledger does not stand: ${place}${problemWords[verdict.problem]}`);
  }
  return { ok: true, ledger, secretHex, isNew: false };
}

function refuse(message: string): StartedLedger {
  return { ok: false, message };
}
