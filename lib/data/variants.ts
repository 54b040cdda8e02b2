import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { Transaction } from "./client";

/** The one row of a recipe's content: kept now, or the one kept earlier. Null when the id stands for another content. */
export async function keepVariant(
  tx: Transaction,
  variant: { id: string; contentHash: string; content: VariantContent },
): Promise<{ readonly id: string; readonly isNew: boolean } | null> {
  const { id, contentHash, content } = variant;
  const { count } = await tx.protocolVariant.createMany({
    data: [{ id, contentHash, grain: content.grain, content }],
    skipDuplicates: true,
  });
  const kept = await tx.protocolVariant.findUnique({ where: { contentHash }, select: { id: true } });
  return kept && { id: kept.id, isNew: count === 1 };
}

/**
 * Puts a recipe on the account's shelf. One that stands there already is renamed and keeps what it follows, so that
 * versions never run in a circle.
 */
export async function putOnShelf(
  tx: Transaction,
  entry: { accountId: string; variantId: string; name: string; followsVariantId: string | null },
): Promise<void> {
  const { accountId, variantId, name } = entry;
  await tx.shelfEntry.upsert({
    where: { accountId_variantId: { accountId, variantId } },
    create: entry,
    update: { name },
  });
}

/** False when the recipe is not on the account's shelf. */
export async function renameOnShelf(
  tx: Transaction,
  { accountId, variantId, name }: { accountId: string; variantId: string; name: string },
): Promise<boolean> {
  const { count } = await tx.shelfEntry.updateMany({ where: { accountId, variantId }, data: { name } });
  return count === 1;
}

/** False when the recipe was not on the account's shelf. A later version then follows what this one followed. */
export async function removeFromShelf(
  tx: Transaction,
  accountId: string,
  variantId: string,
): Promise<boolean> {
  const entry = await tx.shelfEntry.findUnique({ where: { accountId_variantId: { accountId, variantId } } });
  if (!entry) return false;
  const { followsVariantId } = entry;
  await tx.shelfEntry.updateMany({
    where: { accountId, followsVariantId: variantId },
    data: { followsVariantId },
  });
  const { count } = await tx.shelfEntry.deleteMany({ where: { accountId, variantId } });
  return count === 1;
}

export interface ShelfRow {
  readonly variantId: string;
  readonly name: string;
  readonly content: VariantContent;
  readonly followsVariantId: string | null;
  readonly createdAt: Date;
}

/** The account's recipes, newest first. */
export async function shelfOf(tx: Transaction, accountId: string): Promise<ShelfRow[]> {
  const entries = await tx.shelfEntry.findMany({
    where: { accountId },
    include: { variant: true },
    orderBy: { createdAt: "desc" },
  });
  return entries.map(({ variantId, name, variant, followsVariantId, createdAt }) => ({
    variantId,
    name,
    content: variant.content as unknown as VariantContent,
    followsVariantId,
    createdAt,
  }));
}

/** A recipe that anyone may see, as an arm of trials that have left their draft. */
export interface PublicRecipe {
  readonly variantId: string;
  readonly content: VariantContent;
  readonly trials: readonly { readonly slug: string; readonly title: string }[];
}

/** Recipes of one grain in trials that have left their draft, or one of them by its id. */
export async function publicRecipes(
  tx: Transaction,
  which: { grain: string } | { id: string },
): Promise<PublicRecipe[]> {
  const inOpened = { trial: { status: { not: "draft" } } };
  const variants = await tx.protocolVariant.findMany({
    where: { ...which, arms: { some: inOpened } },
    include: { arms: { where: inOpened, select: { trial: { select: { slug: true, title: true } } } } },
  });
  return variants.map(({ id, content, arms }) => ({
    variantId: id,
    content: content as unknown as VariantContent,
    trials: arms.map(({ trial }) => trial),
  }));
}
