import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { keepVariant, putOnShelf, type ShelfRow, shelfOf } from "@/lib/data/variants";
import { type MoisturePrediction, predictMoisture } from "@/lib/engine/grain/moisture";
import { normaliseVariant, variantHash } from "@/lib/engine/grain/variant-identity";
import { done, type Result, refuse } from "@/lib/errors/result";
import { GRAIN_FIGURES } from "@/lib/reference/grains";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { ShelfEntryInput } from "@/shared/schemas/shelf-entry";

export interface RegisteredVariant {
  readonly variantId: string;
  readonly contentHash: string;
  /** Whether somebody had registered the same content before; then this is their row. */
  readonly known: boolean;
  readonly content: VariantContent;
  readonly moisture: MoisturePrediction | null;
}

/** Puts a recipe on the actor's shelf; identical content shares one row and one identity. */
export async function registerVariant(
  tx: Transaction,
  actor: Actor,
  input: ShelfEntryInput,
): Promise<Result<RegisteredVariant, "NOT_FOUND">> {
  const content = normaliseVariant(input.content);
  const contentHash = variantHash(content);
  const kept = await keepVariant(tx, { id: input.id, contentHash, content });
  if (!kept) return refuse("NOT_FOUND");
  await putOnShelf(tx, { accountId: actor.accountId, variantId: kept.id, name: input.name });
  const moisture = moistureOf(content);
  return done({ variantId: kept.id, contentHash, known: !kept.isNew, content, moisture });
}

/** Predicted moisture of a recipe; null where cups of its form have no known weight. */
export function moistureOf(content: VariantContent): MoisturePrediction | null {
  const predicted = predictMoisture(GRAIN_FIGURES[content.grain], content);
  return predicted.ok ? predicted.prediction : null;
}

export interface ShelfView extends ShelfRow {
  readonly moisture: MoisturePrediction | null;
}

/** The actor's recipes with their water ratio by mass and predicted moisture. */
export async function shelfView(tx: Transaction, actor: Actor): Promise<ShelfView[]> {
  const shelf = await shelfOf(tx, actor.accountId);
  return shelf.map((entry) => ({ ...entry, moisture: moistureOf(entry.content) }));
}
