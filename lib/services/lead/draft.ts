import { randomInt } from "node:crypto";
import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { type DraftRow, insertDraft, isSlugTaken, updateDraft } from "@/lib/data/drafts";
import { allRegions, insertRegion } from "@/lib/data/regions";
import { OUTING_CODE_ALPHABET } from "@/lib/engine/design/outing-code";
import { done, type Result, refuse } from "@/lib/errors/result";
import type { TrialDraftInput } from "@/shared/schemas/trial-draft";
import { mayMakeTrials } from "./authorise";
import { ownDraft } from "./own-draft";

const JOIN_CODE_LENGTH = 8;
/** Addresses and codes meet next to never; a few tries are plenty. */
const TRIES = 5;

type DraftRefusal = "ENDS_IN_PAST" | "UNKNOWN_REGION" | "TRY_AGAIN";

/** Makes a draft led by the actor. Nobody else sees it before it opens. */
export async function makeDraft(
  tx: Transaction,
  actor: Actor,
  input: TrialDraftInput,
  now: Date,
): Promise<Result<{ readonly trialId: string }, DraftRefusal | "MAY_NOT_LEAD">> {
  if (!mayMakeTrials(actor)) return refuse("MAY_NOT_LEAD");
  const checked = await checkedDraft(tx, input, now);
  if (!checked.ok) return checked;
  const trialId = v7();
  if (!(await keepDraft(tx, actor, { ...checked.value, id: trialId }))) return refuse("TRY_AGAIN");
  await insertAuditEntry(tx, { growerId: actor.growerId, action: "trial.drafted", subjectId: trialId });
  return done({ trialId });
}

/** Keeps a draft led by the actor under an address and a join code that are free; false when none was found. */
export async function keepDraft(
  tx: Transaction,
  actor: Actor,
  draft: Omit<DraftRow, "slug"> & { readonly id: string; readonly followsId?: string },
): Promise<boolean> {
  for (let tries = 0; tries < TRIES; tries++) {
    const slug = addressOf(draft.title, tries === 0 ? null : randomCode(4));
    const joinCode = randomCode(JOIN_CODE_LENGTH);
    if (await insertDraft(tx, { ...draft, slug, joinCode, leadAccountId: actor.accountId })) return true;
  }
  return false;
}

/** Puts what a draft is to say in place of all it said but its recipes and the choices for its plan. */
export async function editDraft(
  tx: Transaction,
  actor: Actor,
  input: TrialDraftInput & { readonly trialId: string },
  now: Date,
): Promise<Result<null, DraftRefusal | "NOT_FOUND" | "TRIAL_NOT_DRAFT">> {
  const trial = await ownDraft(tx, actor, input.trialId);
  if (!trial.ok) return trial;
  const { trialId, ...draft } = input;
  const checked = await checkedDraft(tx, draft, now);
  if (!checked.ok) return checked;
  const slug =
    draft.title === trial.value.title ? trial.value.slug : await freeSlug(tx, draft.title, trialId);
  if (!slug) return refuse("TRY_AGAIN");
  await updateDraft(tx, trial.value.id, { ...checked.value, slug });
  return done(null);
}

async function freeSlug(tx: Transaction, title: string, trialId: string): Promise<string | null> {
  for (let tries = 0; tries < TRIES; tries++) {
    const slug = addressOf(title, tries === 0 ? null : randomCode(4));
    if (!(await isSlugTaken(tx, slug, trialId))) return slug;
  }
  return null;
}

/** The draft with its new region among the others, once there is nothing against it. */
async function checkedDraft(
  tx: Transaction,
  input: TrialDraftInput,
  now: Date,
): Promise<Result<Omit<DraftRow, "slug">, DraftRefusal>> {
  if (input.endsOn <= now.toISOString().slice(0, 10)) return refuse("ENDS_IN_PAST");
  const { newRegion, regions: chosen, ...rest } = input;
  const known = new Set((await allRegions(tx)).map(({ id }) => id));
  if (!chosen.every(({ regionId }) => known.has(regionId))) return refuse("UNKNOWN_REGION");
  if (!newRegion) return done({ ...rest, regions: chosen });
  const { capacity, ...region } = newRegion;
  const id = v7();
  const kept = await insertRegion(tx, { id, code: addressOf(region.name, randomCode(4)), ...region });
  return kept ? done({ ...rest, regions: [...chosen, { regionId: id, capacity }] }) : refuse("TRY_AGAIN");
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
