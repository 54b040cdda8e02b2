import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import {
  keepVariant,
  type PublicRecipe,
  publicRecipes,
  putOnShelf,
  removeFromShelf,
  renameOnShelf,
  type ShelfRow,
  shelfOf,
} from "@/lib/data/variants";
import { type MoisturePrediction, predictMoisture } from "@/lib/engine/grain/moisture";
import { nearTwin, type TwinDifference } from "@/lib/engine/grain/near-twin";
import { normaliseVariant, variantHash } from "@/lib/engine/grain/variant-identity";
import { done, type Result, refuse } from "@/lib/errors/result";
import { GRAIN_FIGURES } from "@/lib/reference/grains";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { ShelfEntryInput } from "@/shared/schemas/shelf-entry";

/** A recipe nearly the same as another: one's own, by its name, or one of trials. */
export interface NearTwin {
  readonly variantId: string;
  readonly content: VariantContent;
  readonly differences: readonly TwinDifference[];
  /** Null when it isn't on one's own shelf. */
  readonly name: string | null;
  readonly trials: PublicRecipe["trials"];
}

export interface RegisteredVariant {
  readonly variantId: string;
  readonly contentHash: string;
  /** Whether somebody had registered the same content before; then this is their row. */
  readonly known: boolean;
  readonly content: VariantContent;
  readonly moisture: MoisturePrediction | null;
  readonly twins: readonly NearTwin[];
}

/** Puts a recipe on the actor's shelf; identical content shares one row and one identity. */
export async function registerVariant(
  tx: Transaction,
  actor: Actor,
  input: ShelfEntryInput,
): Promise<Result<RegisteredVariant, "NOT_FOUND">> {
  const content = normaliseVariant(input.content);
  const contentHash = variantHash(content);
  const shelf = await shelfOf(tx, actor.accountId);
  const followsVariantId = input.followsVariantId ?? null;
  if (followsVariantId && !shelf.some(({ variantId }) => variantId === followsVariantId)) {
    return refuse("NOT_FOUND");
  }
  const kept = await keepVariant(tx, { id: input.id, contentHash, content });
  if (!kept) return refuse("NOT_FOUND");
  const { accountId } = actor;
  await putOnShelf(tx, { accountId, variantId: kept.id, name: input.name, followsVariantId });
  const moisture = moistureOf(content);
  const twins = await twinsOf(tx, shelf, { variantId: kept.id, content });
  return done({ variantId: kept.id, contentHash, known: !kept.isNew, content, moisture, twins });
}

/** Gives a recipe on the actor's shelf another name. */
export async function renameRecipe(
  tx: Transaction,
  actor: Actor,
  { variantId, name }: { variantId: string; name: string },
): Promise<Result<null, "NOT_FOUND">> {
  const renamed = await renameOnShelf(tx, { accountId: actor.accountId, variantId, name });
  return renamed ? done(null) : refuse("NOT_FOUND");
}

/** Takes a recipe off the actor's shelf; trials and boxes that use it keep it. */
export async function takeOffShelf(
  tx: Transaction,
  actor: Actor,
  variantId: string,
): Promise<Result<null, "NOT_FOUND">> {
  return (await removeFromShelf(tx, actor.accountId, variantId)) ? done(null) : refuse("NOT_FOUND");
}

/** Predicted moisture of a recipe; null where cups of its form have no known weight. */
export function moistureOf(content: VariantContent): MoisturePrediction | null {
  const predicted = predictMoisture(GRAIN_FIGURES[content.grain], content);
  return predicted.ok ? predicted.prediction : null;
}

type Recipe = Pick<ShelfRow, "variantId" | "content">;

/** Near twins on a shelf and in trials, never in anybody else's shelf. */
async function twinsOf(tx: Transaction, shelf: readonly ShelfRow[], recipe: Recipe): Promise<NearTwin[]> {
  const inTrials = await publicRecipes(tx, { grain: recipe.content.grain });
  const trialsOf = new Map(inTrials.map(({ variantId, trials }) => [variantId, trials]));
  const nameOf = new Map(shelf.map(({ variantId, name }) => [variantId, name]));
  const candidates = new Map<string, Recipe>([...shelf, ...inTrials].map((each) => [each.variantId, each]));
  candidates.delete(recipe.variantId);
  return [...candidates.values()].flatMap(({ variantId, content }) => {
    const differences = nearTwin(compared(recipe.content), compared(content));
    if (!differences) return [];
    const name = nameOf.get(variantId) ?? null;
    return [{ variantId, content, differences, name, trials: trialsOf.get(variantId) ?? [] }];
  });
}

function compared(content: VariantContent) {
  return { content, moisture: moistureOf(content)?.moisture ?? null };
}

export interface ShelfView extends ShelfRow {
  readonly moisture: MoisturePrediction | null;
  /** The versions before this one, newest first. */
  readonly earlier: readonly ShelfRow[];
  /** Whether a later version stands on the shelf too. */
  readonly hasLater: boolean;
}

/** The actor's recipes with their water ratio by mass, predicted moisture and earlier versions. */
export async function shelfView(tx: Transaction, actor: Actor): Promise<ShelfView[]> {
  return viewsOf(await shelfOf(tx, actor.accountId));
}

function viewsOf(shelf: readonly ShelfRow[]): ShelfView[] {
  const byId = new Map(shelf.map((entry) => [entry.variantId, entry]));
  return shelf.map((entry) => {
    const earlier: ShelfRow[] = [];
    let before = entry.followsVariantId;
    while (before) {
      const version = byId.get(before);
      if (version) earlier.push(version);
      before = version?.followsVariantId ?? null;
    }
    return {
      ...entry,
      moisture: moistureOf(entry.content),
      earlier,
      hasLater: shelf.some(({ followsVariantId }) => followsVariantId === entry.variantId),
    };
  });
}

export interface RecipeView extends ShelfView {
  readonly twins: readonly NearTwin[];
  readonly trials: PublicRecipe["trials"];
}

/** One recipe on the actor's shelf; null when it isn't there. */
export async function recipeView(
  tx: Transaction,
  actor: Actor,
  variantId: string,
): Promise<RecipeView | null> {
  const shelf = await shelfOf(tx, actor.accountId);
  const view = viewsOf(shelf).find((entry) => entry.variantId === variantId);
  if (!view) return null;
  const [inTrials] = await publicRecipes(tx, { id: variantId });
  return { ...view, twins: await twinsOf(tx, shelf, view), trials: inTrials?.trials ?? [] };
}
