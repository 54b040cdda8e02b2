import type { Actor } from "@/lib/auth/actor";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { findTrialToJoin, lockOpenTrial, setCapacity, type TrialToJoin } from "@/lib/data/enrolments";
import { done, type Result, refuse } from "@/lib/errors/result";
import { fillFromLine } from "@/lib/services/growing/seats";
import { takesNoMoreDraws } from "@/lib/services/trial-ends";
import { authoriseLead } from "./authorise";

/** A trial that has opened with what its lead invites growers with: code, regions with their seats and lines. */
export async function openedTrial(
  tx: Transaction,
  actor: Actor,
  trialId: string,
): Promise<Result<TrialToJoin, "NOT_FOUND">> {
  const authorised = await authoriseLead(tx, actor, trialId);
  if (!authorised.ok) return authorised;
  const trial = (await findTrialToJoin(tx, authorised.value))!;
  return trial.status === "draft" ? refuse("NOT_FOUND") : done(trial);
}

/** Gives a region of the actor's open trial more seats or fewer, and new ones to those who wait, in their order. */
export async function changeCapacity(
  tx: Transaction,
  actor: Actor,
  input: { readonly trialId: string; readonly regionId: string; readonly capacity: number },
  now = new Date(),
): Promise<
  Result<
    { readonly seatsGiven: number },
    "NOT_FOUND" | "TRIAL_NOT_OPEN" | "TRIAL_ENDED" | "BELOW_SEATS_TAKEN"
  >
> {
  const authorised = await authoriseLead(tx, actor, input.trialId);
  if (!authorised.ok) return authorised;
  const trialId = authorised.value;
  const { regionId, capacity } = input;
  if (!(await lockOpenTrial(tx, trialId))) return refuse("TRIAL_NOT_OPEN");
  const before = (await findTrialToJoin(tx, trialId))!;
  if (await takesNoMoreDraws(tx, trialId, before.ends, now)) return refuse("TRIAL_ENDED");
  const region = before.regions.find(({ id }) => id === regionId);
  if (!region) return refuse("NOT_FOUND");
  if (!(await setCapacity(tx, trialId, regionId, capacity))) return refuse("BELOW_SEATS_TAKEN");
  await insertAuditEntry(tx, {
    growerId: actor.growerId,
    action: "trial.capacity",
    subjectId: trialId,
    detail: { regionId, from: region.capacity, to: capacity },
  });
  const seatsGiven = await fillFromLine(tx, (await findTrialToJoin(tx, trialId))!, regionId);
  return done({ seatsGiven });
}
