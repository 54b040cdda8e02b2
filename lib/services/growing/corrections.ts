import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { answerRequest, requestsToGrower } from "@/lib/data/corrections";
import { done, type Result, refuse } from "@/lib/errors/result";

/** A request about a box of the actor's own that waits for an answer. */
export type OwnRequest = Awaited<ReturnType<typeof requestsToGrower>>[number];

/** What leads ask the actor to look at again, oldest first. A new record of the box ends a request by itself. */
export function requestsToMe(tx: Transaction, actor: Actor): Promise<OwnRequest[]> {
  return requestsToGrower(tx, actor.growerId);
}

/** The actor's answer that a box's record stands as it is. */
export async function answerCorrection(
  tx: Transaction,
  actor: Actor,
  requestId: string,
  now: Date,
): Promise<Result<null, "NOT_FOUND">> {
  const answered = await answerRequest(tx, { id: requestId, growerId: actor.growerId, at: now });
  return answered ? done(null) : refuse("NOT_FOUND");
}
