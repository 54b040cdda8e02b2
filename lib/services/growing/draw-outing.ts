import { randomBytes } from "node:crypto";
import type { Actor } from "@/lib/auth/actor";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { boxesDrawnByArm, insertDraw, type LockedTrial, ledgerOf, lockTrialForDraw } from "@/lib/data/draws";
import { commitOuting, findOwnOuting } from "@/lib/data/outings";
import { bandOf } from "@/lib/engine/climate/grouping";
import { designOf } from "@/lib/engine/design/draw";
import { EarlierDraws } from "@/lib/engine/design/history";
import { appendDraw, receiptOf, timeHashOf } from "@/lib/engine/design/ledger";
import { bytesToHex, hexToBytes, hmacSha256, utf8ToBytes } from "@/lib/engine/random/hash";
import { done, type Result, refuse } from "@/lib/errors/result";
import { openSecret } from "@/lib/services/seal";
import { type DrawInputs, type DrawReceipt, drawInputsSchema } from "@/shared/schemas/draw";
import type { DrawRequest } from "@/shared/schemas/draw-request";
import { storedPlanSchema } from "@/shared/schemas/plan";
import type { KoppenClass } from "@/shared/vocabulary/climate";

type DrawRefusalReason =
  | "NOT_FOUND"
  | "TRIAL_NOT_OPEN"
  | "ALREADY_DRAWN"
  | "OUTING_ABANDONED"
  | "CLASS_NOT_IN_TRIAL"
  | "BAD_BOX_COUNT"
  | "NO_ARM_POSSIBLE"
  | "ONE_ARM_ONLY";

type OwnOuting = NonNullable<Awaited<ReturnType<typeof findOwnOuting>>>;

/**
 * Commits an outing and draws the recipes of its boxes: once, for good, one draw of the trial after the other.
 * Everything the draw rests on is read after the trial's row is locked.
 */
export async function drawOuting(
  tx: Transaction,
  actor: Actor,
  input: DrawRequest,
): Promise<Result<DrawReceipt, DrawRefusalReason>> {
  const planned = await findOwnOuting(tx, actor.growerId, input.outingId);
  if (!planned) return refuse("NOT_FOUND");
  const trial = await lockTrialForDraw(tx, planned.trialId);
  const outing = await findOwnOuting(tx, actor.growerId, input.outingId);
  if (!trial || !outing) return refuse("NOT_FOUND");
  if (outing.committedAt) return refuse("ALREADY_DRAWN");
  if (outing.status === "abandoned") return refuse("OUTING_ABANDONED");
  if (trial.status !== "open") return refuse("TRIAL_NOT_OPEN");
  const band = bandOf(outing.site.koppenClass as KoppenClass, trial.grouping);
  if (!band.ok) return refuse("CLASS_NOT_IN_TRIAL");

  const secretHex = openSecret(trial.ciphertext);
  const drawnAt = new Date();
  const timeSalt = randomBytes(16).toString("hex");
  const inputs = await drawInputs(tx, trial, outing, {
    band: band.band,
    outingId: ledgerOutingId(secretHex, outing.id),
    timeHash: timeHashOf(timeSalt, drawnAt.toISOString()),
  });
  const { plan } = await tx.trial.findUniqueOrThrow({ where: { id: trial.trialId }, select: { plan: true } });
  const ledger = await ledgerOf(tx, trial.trialId);
  const earlier = new EarlierDraws(trial.arms.map(({ code }) => code));
  for (const earlierEntry of ledger) earlier.add(earlierEntry);
  const design = designOf(storedPlanSchema.parse(plan));
  const drawn = appendDraw(trial, design, ledger.at(-1) ?? null, secretHex, inputs, earlier.of(inputs));
  if (!drawn.ok) return refuse(drawn.reason);

  const { entry } = drawn;
  const armIds = new Map(trial.arms.map((arm) => [arm.code, arm.id]));
  const boxIds = new Map(outing.boxes.map((box) => [box.position, box.id]));
  const allocations = entry.result.map(({ position, arm }) => ({
    boxId: boxIds.get(position)!,
    armId: armIds.get(arm)!,
  }));
  const { trialId } = trial;
  await insertDraw(tx, { id: input.id, trialId, outingId: outing.id, entry, drawnAt, timeSalt, allocations });
  await commitOuting(tx, {
    id: outing.id,
    band: band.band,
    koppenClass: outing.site.koppenClass as KoppenClass,
    committedAt: drawnAt,
  });
  await insertAuditEntry(tx, {
    growerId: actor.growerId,
    action: "outing.drawn",
    subjectId: outing.id,
    detail: { number: entry.number, hash: entry.hash },
  });
  return done(receiptOf(trial, entry));
}

async function drawInputs(
  tx: Transaction,
  trial: LockedTrial,
  outing: OwnOuting,
  draw: { band: string; outingId: string; timeHash: string },
): Promise<DrawInputs> {
  const drawnByArm = await boxesDrawnByArm(tx, trial.trialId, draw.band);
  return drawInputsSchema.parse({
    outingId: draw.outingId,
    household: outing.enrolment.pseudonym,
    climateGroup: draw.band,
    region: outing.region.code,
    boxes: outing.boxes.length,
    grainsAtHand: outing.grainsAtHand,
    arms: trial.arms.map(({ id, code, grain }) => ({ code, grain, drawnBefore: drawnByArm.get(id) ?? 0 })),
    timeHash: draw.timeHash,
  });
}

/**
 * The id an outing has in the public ledger: 16 bytes of HMAC-SHA-256(trial secret, "outing/<id>") as a UUIDv8.
 * An outing's own id tells the millisecond it was planned; this one tells nothing, and once the secret is opened
 * whoever knows the own id can check which draw it is.
 */
export function ledgerOutingId(secretHex: string, outingId: string): string {
  const bytes = hmacSha256(hexToBytes(secretHex), utf8ToBytes(`outing/${outingId}`)).slice(0, 16);
  bytes[6] = (bytes[6]! & 0x0f) | 0x80;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  return bytesToHex(bytes).replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}
