import type { Actor } from "@/lib/auth/actor";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { findHideable, type HideableThing, setHidden } from "@/lib/data/hiding";
import type { LeadTrialRow } from "@/lib/data/lead";
import { type Told, toldInTrial } from "@/lib/data/lead-told";
import { done, type Result, refuse } from "@/lib/errors/result";
import { tellHiding } from "@/lib/mail/from-lead";
import { isUuid } from "@/shared/schemas/id";
import type { HideableKind } from "@/shared/vocabulary/desk";
import { ownOpened } from "./desk";

const PAGE = 25;

export type { Told };

/** A page of the own words and pictures of the actor's trial, the latest first; `page` counts from 1. */
export async function toldList(
  tx: Transaction,
  actor: Actor,
  { trialId, page }: { readonly trialId: string; readonly page: number },
): Promise<
  Result<
    { readonly trial: LeadTrialRow; readonly told: readonly Told[]; readonly more: boolean },
    "NOT_FOUND"
  >
> {
  const trial = await ownOpened(tx, actor, trialId);
  if (!trial.ok) return trial;
  const withCookingWords = trial.value.status === "closed";
  const told = await toldInTrial(tx, trialId, { withCookingWords, skip: (page - 1) * PAGE, take: PAGE + 1 });
  return done({ trial: trial.value, told: told.slice(0, PAGE), more: told.length > PAGE });
}

interface Asked {
  readonly trialId: string;
  readonly kind: HideableKind;
  readonly id: string;
}

/** Hides own words or a picture of the actor's trial from everyone but their author, who is told why. */
export async function hideThing(
  tx: Transaction,
  actor: Actor,
  asked: Asked & { readonly reason: string },
  now: Date,
): Promise<Result<null, "NOT_FOUND" | "ALREADY_HIDDEN">> {
  const found = await ownHideable(tx, actor, asked);
  if (!found.ok) return found;
  const { reason, kind } = asked;
  if (found.value.isHidden) return refuse("ALREADY_HIDDEN");
  await setHidden(tx, kind, asked.id, { at: now, reason });
  const from = { trialId: asked.trialId, leadId: actor.accountId };
  await tellHiding(tx, found.value.author, from, { ...found.value, kind, reason });
  await audit(tx, actor, `${kind}.hidden`, asked.id);
  return done(null);
}

/** Takes that back. */
export async function showThing(
  tx: Transaction,
  actor: Actor,
  asked: Asked,
): Promise<Result<null, "NOT_FOUND" | "NOT_HIDDEN">> {
  const found = await ownHideable(tx, actor, asked);
  if (!found.ok) return found;
  if (!found.value.isHidden) return refuse("NOT_HIDDEN");
  await setHidden(tx, asked.kind, asked.id, null);
  const from = { trialId: asked.trialId, leadId: actor.accountId };
  await tellHiding(tx, found.value.author, from, { ...found.value, kind: asked.kind, reason: null });
  await audit(tx, actor, `${asked.kind}.shown`, asked.id);
  return done(null);
}

async function ownHideable(
  tx: Transaction,
  actor: Actor,
  { trialId, kind, id }: Asked,
): Promise<Result<HideableThing, "NOT_FOUND">> {
  const trial = await ownOpened(tx, actor, trialId);
  if (!trial.ok) return trial;
  const thing = isUuid(id) ? await findHideable(tx, trialId, kind, id) : null;
  return thing ? done(thing) : refuse("NOT_FOUND");
}

function audit(tx: Transaction, actor: Actor, action: string, subjectId: string): Promise<void> {
  return insertAuditEntry(tx, { growerId: actor.growerId, action, subjectId });
}
