import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { deleteArm, insertArm, updateChoices } from "@/lib/data/drafts";
import { shelfOf } from "@/lib/data/variants";
import { done, type Result, refuse } from "@/lib/errors/result";
import { ARMS_PER_TRIAL } from "@/shared/schemas/plan";
import { ownDraft } from "./own-draft";
import { armCode } from "./plan";

type ArmRefusal =
  | "NOT_FOUND"
  | "TRIAL_NOT_DRAFT"
  | "RECIPE_NOT_ON_SHELF"
  | "RECIPE_ALREADY_IN"
  | "TOO_MANY_RECIPES";

/** Takes recipes of the actor's own shelf into their draft, in this order after those it has: all of them or none. */
export async function addArms(
  tx: Transaction,
  actor: Actor,
  input: { readonly trialId: string; readonly variantIds: readonly string[] },
): Promise<Result<null, ArmRefusal>> {
  const trial = await ownDraft(tx, actor, input.trialId);
  if (!trial.ok) return trial;
  const { id: trialId, arms } = trial.value;
  const onShelf = new Set((await shelfOf(tx, actor.accountId)).map(({ variantId }) => variantId));
  const taken = new Set(arms.map(({ variantId }) => variantId));
  for (const variantId of input.variantIds) {
    if (!onShelf.has(variantId)) return refuse("RECIPE_NOT_ON_SHELF");
    if (taken.has(variantId)) return refuse("RECIPE_ALREADY_IN");
    if (taken.size >= ARMS_PER_TRIAL.max) return refuse("TOO_MANY_RECIPES");
    taken.add(variantId);
    const position = taken.size;
    await insertArm(tx, { id: v7(), trialId, variantId, position, code: armCode(position) });
  }
  return done(null);
}

/**
 * Takes a recipe out of the actor's draft; those after it move up by a letter. The reference of the primary
 * comparison keeps its recipe, and can't be taken out before another comparison is chosen.
 */
export async function removeArm(
  tx: Transaction,
  actor: Actor,
  input: { readonly trialId: string; readonly armId: string },
): Promise<Result<null, "NOT_FOUND" | "TRIAL_NOT_DRAFT" | "RECIPE_IS_REFERENCE">> {
  const trial = await ownDraft(tx, actor, input.trialId);
  if (!trial.ok) return trial;
  const { id, arms, choices } = trial.value;
  const removed = arms.find((arm) => arm.id === input.armId);
  if (!removed) return refuse("NOT_FOUND");
  const primary = choices?.primaryComparison;
  if (choices && primary?.kind === "against-reference") {
    if (primary.arm === removed.code) return refuse("RECIPE_IS_REFERENCE");
    const reference = arms.find(({ code }) => code === primary.arm);
    if (reference && reference.position > removed.position) {
      const primaryComparison = { ...primary, arm: armCode(reference.position - 1) };
      await updateChoices(tx, id, { ...choices, primaryComparison });
    }
  }
  await deleteArm(tx, id, removed.id, armCode);
  return done(null);
}
