import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { findHideable, type HideableKind, type HideableThing, setHidden } from "@/lib/data/hiding";
import { insertLeadMails, LETTER } from "@/lib/data/mails";
import { done, type Result, refuse } from "@/lib/errors/result";
import { mailMessages } from "@/lib/ui/messages/en/mails";
import { isUuid } from "@/shared/schemas/id";
import { ownOpened } from "./desk";

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
  await tellAuthor(tx, asked, found.value, reason);
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
  await tellAuthor(tx, asked, found.value, null);
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

/** A letter that stands under "My things" and isn't mailed. */
function tellAuthor(
  tx: Transaction,
  { trialId, kind }: Asked,
  { author, boxCode, text }: HideableThing,
  reason: string | null,
): Promise<void> {
  const words = mailMessages.hiding({ kind, boxCode, text, reason });
  const { id: accountId, email: toAddress } = author;
  return insertLeadMails(tx, [
    { ...words, id: v7(), kind: LETTER, accountId, toAddress, trialId, byMail: false },
  ]);
}

function audit(tx: Transaction, actor: Actor, action: string, subjectId: string): Promise<void> {
  return insertAuditEntry(tx, { growerId: actor.growerId, action, subjectId });
}
