import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { insertAuditEntry } from "@/lib/data/audit";
import { keepNote } from "@/lib/data/boxes";
import type { Transaction } from "@/lib/data/client";
import {
  type CorrectionRequest,
  insertRequest,
  isAsked,
  requestsOfBox,
  requestsOfTrial,
} from "@/lib/data/corrections";
import { type LeadTrialRow, lockTrial } from "@/lib/data/lead";
import { accountOfBox, findLeadBox, type LeadBox } from "@/lib/data/lead-box";
import { type OddRecord, oddRecords } from "@/lib/data/odd-records";
import { done, type Result, refuse } from "@/lib/errors/result";
import { mailCorrectionAsked } from "@/lib/mail/from-lead";
import type { Correction } from "@/shared/schemas/correction";
import { ownOpened } from "./desk";

export type { CorrectionRequest, LeadBox, OddRecord };

const PAGE = 25;

export interface BoxView {
  readonly trial: LeadTrialRow;
  readonly box: LeadBox;
  /** The latest first. */
  readonly requests: readonly CorrectionRequest[];
}

/** A drawn box of the actor's trial by its label's code: its record without its recipe, and what was asked about it. */
export async function boxView(
  tx: Transaction,
  actor: Actor,
  { trialId, code }: { readonly trialId: string; readonly code: string },
): Promise<Result<BoxView, "NOT_FOUND" | "NO_SUCH_BOX">> {
  const trial = await ownOpened(tx, actor, trialId);
  if (!trial.ok) return trial;
  const box = await findLeadBox(tx, trialId, code, trial.value.status === "closed");
  if (!box) return refuse("NO_SUCH_BOX");
  return done({ trial: trial.value, box, requests: await requestsOfBox(tx, box.id) });
}

export type AskRefusal =
  | "NOT_FOUND"
  /** After the close a correction would change no result any more. */
  | "TRIAL_NOT_OPEN"
  | "NOBODY_TO_ASK"
  | "ALREADY_ASKED";

/** Asks whoever set a box out to look at its record again; nothing of the record is changed for them. */
export async function askCorrection(
  tx: Transaction,
  actor: Actor,
  asked: { readonly trialId: string; readonly code: string; readonly correction: Correction },
  now: Date,
): Promise<Result<{ readonly requestId: string }, AskRefusal>> {
  const { trialId, correction } = asked;
  const trial = await ownOpened(tx, actor, trialId);
  if (!trial.ok) return trial;
  if (trial.value.status !== "open") return refuse("TRIAL_NOT_OPEN");
  await lockTrial(tx, trialId);
  const box = await findLeadBox(tx, trialId, asked.code, false);
  if (!box) return refuse("NOT_FOUND");
  const grower = await accountOfBox(tx, box.id);
  if (!grower) return refuse("NOBODY_TO_ASK");
  if (await isAsked(tx, box.id, correction.kind)) return refuse("ALREADY_ASKED");
  const requestId = v7();
  const { kind, words } = correction;
  await insertRequest(tx, {
    ...{ id: requestId, trialId, boxId: box.id, kind },
    askedById: actor.growerId,
    askedAt: now,
  });
  if (words) await keepNote(tx, { id: v7(), accountId: actor.accountId, subjectId: requestId, text: words });
  if (grower.byMail) await mailCorrectionAsked(tx, grower, { trialId, boxCode: box.code }, now);
  await insertAuditEntry(tx, {
    growerId: actor.growerId,
    action: "correction.asked",
    subjectId: box.id,
    detail: { requestId, kind },
  });
  return done({ requestId });
}

export interface CorrectionLists {
  readonly trial: LeadTrialRow;
  readonly open: Page<CorrectionRequest>;
  readonly answered: Page<CorrectionRequest>;
  /** Records that look odd and nobody has been asked about. */
  readonly odd: Page<OddRecord>;
}

/** One page of a list, and whether more follow. */
export interface Page<Item> {
  readonly items: readonly Item[];
  readonly more: boolean;
}

/** What was asked in the actor's trial and what looks odd, the same page of each list; `page` counts from 1. */
export async function correctionLists(
  tx: Transaction,
  actor: Actor,
  { trialId, page }: { readonly trialId: string; readonly page: number },
  now: Date,
): Promise<Result<CorrectionLists, "NOT_FOUND">> {
  const trial = await ownOpened(tx, actor, trialId);
  if (!trial.ok) return trial;
  const part = { skip: (page - 1) * PAGE, take: PAGE + 1 };
  const isOpen = trial.value.status === "open";
  return done({
    trial: trial.value,
    open: pageOf(await requestsOfTrial(tx, trialId, { open: true, ...part })),
    answered: pageOf(await requestsOfTrial(tx, trialId, { open: false, ...part })),
    odd: pageOf(isOpen ? await oddRecords(tx, trialId, { now, ...part }) : []),
  });
}

function pageOf<Item>(found: readonly Item[]): Page<Item> {
  return { items: found.slice(0, PAGE), more: found.length > PAGE };
}
