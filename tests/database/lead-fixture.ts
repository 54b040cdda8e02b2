import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import type { Database } from "@/lib/data/client";
import { recordBoxEvent } from "@/lib/services/growing/box-events";
import { boxEventSchema } from "@/shared/schemas/box-event";
import type { BoxEventKind } from "@/shared/vocabulary/box";
import { drawnOuting, newGrower, newOpenTrial, type OpenTrial, run } from "./growing-fixture";

/** An invented lead, who may make trials. */
export async function newLead(db: Database, name = "Lead"): Promise<Actor> {
  const lead = { ...(await newGrower(db, name)), mayLead: true };
  await db.account.update({ where: { id: lead.accountId }, data: { mayLead: true } });
  return lead;
}

/** An open trial with its lead. */
export async function ledTrial(db: Database): Promise<{ readonly trial: OpenTrial; readonly lead: Actor }> {
  const trial = await newOpenTrial(db);
  const lead = await newLead(db);
  await db.trialLead.create({ data: { trialId: trial.id, accountId: lead.accountId } });
  return { trial, lead };
}

export interface DrawnSet {
  readonly outingId: string;
  readonly boxIds: readonly string[];
}

/** A set of two boxes whose recipes are picked. */
export async function drawnSet(
  db: Database,
  trial: OpenTrial,
  grower: Actor,
  siteId: string,
): Promise<DrawnSet> {
  const { id, boxes } = await drawnOuting(db, trial, { grower, siteId }, 2);
  return { outingId: id, boxIds: boxes.map((box) => box.id) };
}

/** Tells an event of a box through the service, now or so many hours ago. */
export async function tell(
  db: Database,
  grower: Actor,
  boxId: string,
  kind: BoxEventKind,
  { hoursAgo = 0, note = null }: { readonly hoursAgo?: number; readonly note?: string | null } = {},
): Promise<string> {
  const occurredAt = new Date(Date.now() - hoursAgo * 3_600_000).toISOString();
  const input = boxEventSchema.parse({ id: v7(), boxId, kind, occurredAt, withdrawsId: null, note });
  const told = await run(db, (tx) => recordBoxEvent(tx, grower, input));
  if (!told.ok) throw new Error(told.reason);
  return input.id;
}
