import { randomBytes } from "node:crypto";
import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { withinLimits } from "@/lib/auth/limits";
import { insertAuditEntry } from "@/lib/data/audit";
import { holdCourse, keepNote } from "@/lib/data/boxes";
import type { Transaction } from "@/lib/data/client";
import { findEnrolment, holdSeats } from "@/lib/data/enrolments";
import { standingGrades } from "@/lib/data/grades";
import {
  abandonOuting,
  findOwnOuting,
  findTrialRules,
  insertBoxes,
  insertOuting,
  removeBoxes,
  replanOuting,
  type TrialRules,
} from "@/lib/data/outings";
import { wantPool } from "@/lib/data/pool-state";
import { holdOwnSite, keepPermission, type SiteRow } from "@/lib/data/sites";
import { cookableArms } from "@/lib/engine/design/draw";
import { boxCode, outingCode } from "@/lib/engine/design/outing-code";
import { keystreamSource } from "@/lib/engine/random/source";
import { done, type Refusal, type Result, refuse } from "@/lib/errors/result";
import { takesNoMoreDraws } from "@/lib/services/trial-ends";
import type { Abandonment } from "@/shared/schemas/draw-request";
import type { OutingChange, OutingInput } from "@/shared/schemas/outing";
import { boxLimitFault, boxLimitsOf } from "./box-limits";
import { earliestToday } from "./moments";
import { type RegionExtent, siteFault } from "./planning-view";
import { permissionStanding } from "./sites";

/** With 12,144 codes, twenty tries fail in a trial that has used nearly all of them. */
const CODE_TRIES = 20;

type PlanFault =
  | "NOT_FOUND"
  | "TRIAL_NOT_OPEN"
  | "TRIAL_ENDED"
  | "SITE_OUTSIDE_REGION"
  | "CLASS_NOT_IN_TRIAL"
  | "PERMISSION_NEEDED"
  | "BOX_COUNT_OUTSIDE_TRIAL"
  | "BOX_KIND_OUTSIDE_TRIAL"
  | "DEPTH_OUTSIDE_TRIAL"
  | "DAY_IN_PAST"
  | "DAY_AFTER_TRIAL"
  | "NO_ARM_POSSIBLE"
  | "ONE_ARM_ONLY";

export interface PlannedOuting {
  readonly outingId: string;
  readonly code: string;
}

/** Plans a set of boxes at one of the actor's places. Nothing is drawn yet. */
export async function planOuting(
  tx: Transaction,
  actor: Actor,
  { boxes, permission, ...input }: OutingInput,
): Promise<Result<PlannedOuting, PlanFault | "JOIN_FIRST" | "TOO_MANY_REQUESTS" | "NO_CODE_LEFT">> {
  await holdSeats(tx, input.trialId); // a household that leaves meanwhile would keep a set to draw for
  const trial = await findTrialRules(tx, input.trialId);
  const site = await holdOwnSite(tx, actor.growerId, input.siteId);
  if (!trial || trial.status === "draft" || !site) return refuse("NOT_FOUND");
  const enrolment = await findEnrolment(tx, trial.id, actor);
  if (!enrolment) return refuse("JOIN_FIRST");
  const fault =
    (await planFault(tx, trial, site, enrolment.region, { boxes, ...input })) ??
    (await settlePermission(tx, site, permission));
  if (fault) return fault;
  if (!(await withinLimits({ plans: actor.accountId }))) return refuse("TOO_MANY_REQUESTS");

  for (let tries = 0; tries < CODE_TRIES; tries++) {
    const code = outingCode(keystreamSource(randomBytes(32)));
    const { id: enrolmentId, regionId } = enrolment;
    const owner = { enrolmentId, regionId, growerId: actor.growerId };
    const insertion = await insertOuting(tx, { ...input, ...owner, coverClear: coverClearOf(input), code });
    if (insertion === "id-taken") return refuse("NOT_FOUND");
    if (insertion === "code-taken") continue;
    if (!(await insertBoxes(tx, input.id, boxRows(code, boxes)))) return refuse("NOT_FOUND");
    return done({ outingId: input.id, code });
  }
  return refuse("NO_CODE_LEFT");
}

/** Plans a set of the actor's anew before its draw; its label code stays. */
export async function replanSet(
  tx: Transaction,
  actor: Actor,
  { outingId, basedOn, id: _write, boxes, permission, ...input }: OutingChange,
): Promise<Result<PlannedOuting, PlanFault | "ALREADY_DRAWN" | "OUTING_ABANDONED" | "CHANGED_MEANWHILE">> {
  const outing = await findOwnOuting(tx, actor.growerId, outingId);
  const trial = outing && (await findTrialRules(tx, outing.trialId));
  const site = await holdOwnSite(tx, actor.growerId, input.siteId);
  if (!trial || !site) return refuse("NOT_FOUND");
  if (outing.committedAt) return refuse("ALREADY_DRAWN");
  if (outing.status === "abandoned") return refuse("OUTING_ABANDONED");
  const fault =
    (await planFault(tx, trial, site, outing.region, { boxes, ...input })) ??
    (await settlePermission(tx, site, permission));
  if (fault) return fault;
  const { code, regionId } = outing;
  // First the set, so that a draw made meanwhile is waited for.
  const plan = { ...input, regionId, coverClear: coverClearOf(input) };
  if (!(await replanOuting(tx, outingId, basedOn, plan))) return refuse("CHANGED_MEANWHILE");
  await removeBoxes(tx, outingId);
  if (!(await insertBoxes(tx, outingId, boxRows(code, boxes)))) return refuse("NOT_FOUND");
  return done({ outingId, code });
}

/** Keeps with a place by what right boxes stand there, if that was said now; why none may, if nobody has said it yet. */
async function settlePermission(
  tx: Transaction,
  { id, permission }: SiteRow,
  said: OutingInput["permission"],
): Promise<Refusal<"PERMISSION_NEEDED"> | null> {
  const now = new Date();
  const today = now.toISOString().slice(0, 10);
  const standing = permissionStanding(said ? { kind: said, on: today } : permission, today);
  if (standing !== "said") return refuse("PERMISSION_NEEDED");
  if (said) await keepPermission(tx, id, said, now);
  return null;
}

/** As the grower says; where they don't, by the height of the box if it was measured. */
function coverClearOf({
  coverClear,
  innerHeightCm,
  grainDepthCm,
}: Pick<OutingInput, "coverClear" | "innerHeightCm" | "grainDepthCm">) {
  return coverClear ?? (innerHeightCm === null ? null : innerHeightCm > grainDepthCm);
}

const boxRows = (code: string, boxes: OutingInput["boxes"]) =>
  boxes.map(({ id }, i) => ({ id, position: i + 1, code: boxCode(code, i + 1) }));

async function planFault(
  tx: Transaction,
  trial: TrialRules,
  site: SiteRow,
  region: RegionExtent,
  input: Omit<OutingInput, "id" | "trialId" | "permission">,
): Promise<Refusal<PlanFault> | null> {
  if (trial.status !== "open") return refuse("TRIAL_NOT_OPEN");
  const now = new Date();
  if (await takesNoMoreDraws(tx, trial.id, trial.ends, now)) return refuse("TRIAL_ENDED");
  const atSite = siteFault(trial, site, region);
  if (atSite) return refuse(atSite);
  const count = input.boxes.length;
  if (count < trial.boxesMin || count > trial.boxesMax) return refuse("BOX_COUNT_OUTSIDE_TRIAL");
  if (input.day < earliestToday(now)) return refuse("DAY_IN_PAST");
  if (input.day > trial.ends.endsOn) return refuse("DAY_AFTER_TRIAL");
  const outsideLimits = boxLimitFault(boxLimitsOf(trial.plan), input);
  if (outsideLimits) return outsideLimits;
  const cookable = cookableArms(trial.arms, input.grainsAtHand).length;
  if (cookable === 0) return refuse("NO_ARM_POSSIBLE");
  return cookable === 1 ? refuse("ONE_ARM_ONLY") : null;
}

/**
 * Ends a set of boxes with a reason. One that was drawn keeps its draw and stays in the ledger. One with a
 * recorded box is no set to give up: its recipes would come back to a household that likes what it saw.
 */
export async function giveUpOuting(
  tx: Transaction,
  actor: Actor,
  input: Abandonment,
): Promise<
  Result<
    { readonly outingId: string; readonly trialId: string },
    "NOT_FOUND" | "ALREADY_ABANDONED" | "RECORDS_BEGUN"
  >
> {
  const { outingId, reason, note } = input;
  await holdCourse(tx, { outingId });
  const outing = await findOwnOuting(tx, actor.growerId, outingId);
  if (!outing) return refuse("NOT_FOUND");
  const boxIds = outing.boxes.map(({ id }) => id);
  const recorded = await standingGrades(tx, actor.growerId, boxIds);
  if (recorded.length > 0) return refuse("RECORDS_BEGUN");
  const ended = await abandonOuting(tx, { id: outingId, growerId: actor.growerId, reason });
  if (!ended) return refuse("ALREADY_ABANDONED");
  if (note) await keepNote(tx, { id: v7(), accountId: actor.accountId, subjectId: outingId, text: note });
  await insertAuditEntry(tx, {
    growerId: actor.growerId,
    action: "outing.abandoned",
    subjectId: outingId,
    detail: { reason, drawn: ended.drawn },
  });
  if (ended.drawn) await wantPool(tx, outing.trialId);
  return done({ outingId, trialId: outing.trialId });
}
