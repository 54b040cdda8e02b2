import { randomInt } from "node:crypto";
import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { deleteArm, findLeadTrial, insertArm, insertDraft, lockTrial } from "@/lib/data/lead";
import { allRegions, insertRegion } from "@/lib/data/regions";
import { shelfOf } from "@/lib/data/variants";
import { OUTING_CODE_ALPHABET } from "@/lib/engine/design/outing-code";
import { done, type Result, refuse } from "@/lib/errors/result";
import { ARMS_PER_TRIAL } from "@/shared/schemas/plan";
import type { TrialDraftInput } from "@/shared/schemas/trial-draft";
import { authoriseLead, mayMakeTrials } from "./authorise";
import { armCode } from "./plan";

const JOIN_CODE_LENGTH = 8;
/** Addresses and codes meet next to never; a few tries are plenty. */
const TRIES = 5;

/** Makes a draft led by the actor. Nobody else sees it before it opens. */
export async function makeDraft(
  tx: Transaction,
  actor: Actor,
  input: TrialDraftInput,
  now: Date,
): Promise<
  Result<{ readonly trialId: string }, "MAY_NOT_LEAD" | "ENDS_IN_PAST" | "UNKNOWN_REGION" | "TRY_AGAIN">
> {
  if (!mayMakeTrials(actor)) return refuse("MAY_NOT_LEAD");
  if (input.endsOn <= now.toISOString().slice(0, 10)) return refuse("ENDS_IN_PAST");
  const { newRegion, regions: chosen, ...rest } = input;
  const known = new Set((await allRegions(tx)).map(({ id }) => id));
  if (!chosen.every(({ regionId }) => known.has(regionId))) return refuse("UNKNOWN_REGION");
  const regions = [...chosen];
  if (newRegion) {
    const { capacity, ...region } = newRegion;
    const id = v7();
    const kept = await insertRegion(tx, { id, code: addressOf(region.name, randomCode(4)), ...region });
    if (!kept) return refuse("TRY_AGAIN");
    regions.push({ regionId: id, capacity });
  }
  const trialId = v7();
  for (let tries = 0; tries < TRIES; tries++) {
    const slug = addressOf(rest.title, tries === 0 ? null : randomCode(4));
    const joinCode = randomCode(JOIN_CODE_LENGTH);
    const draft = { ...rest, id: trialId, slug, joinCode, leadAccountId: actor.accountId, regions };
    if (!(await insertDraft(tx, draft))) continue;
    await insertAuditEntry(tx, { growerId: actor.growerId, action: "trial.drafted", subjectId: trialId });
    return done({ trialId });
  }
  return refuse("TRY_AGAIN");
}

type ArmRefusal =
  | "NOT_FOUND"
  | "TRIAL_NOT_DRAFT"
  | "RECIPE_NOT_ON_SHELF"
  | "RECIPE_ALREADY_IN"
  | "TOO_MANY_RECIPES";

/** Takes a recipe of the actor's own shelf into their draft, after those it has. */
export async function addArm(
  tx: Transaction,
  actor: Actor,
  input: { readonly trialId: string; readonly variantId: string },
): Promise<Result<null, ArmRefusal>> {
  const trial = await draftOf(tx, actor, input.trialId);
  if (!trial.ok) return trial;
  const { id: trialId, arms } = trial.value;
  const shelf = await shelfOf(tx, actor.accountId);
  if (!shelf.some(({ variantId }) => variantId === input.variantId)) return refuse("RECIPE_NOT_ON_SHELF");
  if (arms.some(({ variantId }) => variantId === input.variantId)) return refuse("RECIPE_ALREADY_IN");
  if (arms.length >= ARMS_PER_TRIAL.max) return refuse("TOO_MANY_RECIPES");
  const position = arms.length + 1;
  await insertArm(tx, { id: v7(), trialId, variantId: input.variantId, position, code: armCode(position) });
  return done(null);
}

export async function removeArm(
  tx: Transaction,
  actor: Actor,
  input: { readonly trialId: string; readonly armId: string },
): Promise<Result<null, "NOT_FOUND" | "TRIAL_NOT_DRAFT">> {
  const trial = await draftOf(tx, actor, input.trialId);
  if (!trial.ok) return trial;
  return (await deleteArm(tx, trial.value.id, input.armId, armCode)) ? done(null) : refuse("NOT_FOUND");
}

async function draftOf(tx: Transaction, actor: Actor, trialId: string) {
  const authorised = await authoriseLead(tx, actor, trialId);
  if (!authorised.ok) return authorised;
  await lockTrial(tx, authorised.value);
  const trial = await findLeadTrial(tx, authorised.value);
  return trial.status === "draft" ? done(trial) : refuse("TRIAL_NOT_DRAFT");
}

/** Part of an address: "Rice or wheat?" → "rice-or-wheat", with an ending where that is taken. */
function addressOf(title: string, ending: string | null): string {
  const words = title
    .normalize("NFKD")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-|-$/g, "")
    .slice(0, 34) // with its ending within the 40 of a code
    .replace(/-$/, "");
  return [words || "trial", ending?.toLowerCase()].filter(Boolean).join("-");
}

function randomCode(length: number): string {
  return Array.from({ length }, () => OUTING_CODE_ALPHABET[randomInt(OUTING_CODE_ALPHABET.length)]).join("");
}
