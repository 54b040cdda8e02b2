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

/** Puts a recipe on the account's shelf, or renames it there. */
export async function putOnShelf(
  tx: Transaction,
  entry: { accountId: string; variantId: string; name: string },
): Promise<void> {
  const { accountId, variantId, name } = entry;
  await tx.shelfEntry.upsert({
    where: { accountId_variantId: { accountId, variantId } },
    create: entry,
    update: { name },
  });
}

export interface ShelfRow {
  readonly variantId: string;
  readonly name: string;
  readonly content: VariantContent;
}

/** The account's recipes, newest first. */
export async function shelfOf(tx: Transaction, accountId: string): Promise<ShelfRow[]> {
  const entries = await tx.shelfEntry.findMany({
    where: { accountId },
    include: { variant: true },
    orderBy: { createdAt: "desc" },
  });
  return entries.map(({ variantId, name, variant }) => ({
    variantId,
    name,
    content: variant.content as unknown as VariantContent,
  }));
}
