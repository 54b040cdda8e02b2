import type { Transaction } from "./client";
import type { Prisma } from "./generated/client";

export type ReceiptState =
  | { readonly kind: "new" }
  | { readonly kind: "repeat"; readonly status: number; readonly answer: unknown }
  | { readonly kind: "other-content" }
  | { readonly kind: "other-account" };

/**
 * Claims a write's id for this account. A second request with the same id waits here until the first one's
 * transaction has ended, then sees its receipt.
 */
export async function claimReceipt(
  tx: Transaction,
  claim: { id: string; accountId: string; route: string; contentSha256: string },
): Promise<ReceiptState> {
  const inserted = await tx.$executeRaw`
    INSERT INTO receipt (id, account_id, route, content_sha256, status, answer)
    VALUES (${claim.id}::uuid, ${claim.accountId}::uuid, ${claim.route}, ${claim.contentSha256}, 0, 'null')
    ON CONFLICT (id) DO NOTHING`;
  if (inserted === 1) return { kind: "new" };
  const earlier = await tx.receipt.findUniqueOrThrow({ where: { id: claim.id } });
  if (earlier.accountId !== claim.accountId) return { kind: "other-account" };
  if (earlier.contentSha256 !== claim.contentSha256 || earlier.route !== claim.route) {
    return { kind: "other-content" };
  }
  return { kind: "repeat", status: earlier.status, answer: earlier.answer };
}

/** Keeps the first answer beside the claim, in the same transaction as what it answers for. */
export async function keepAnswer(
  tx: Transaction,
  id: string,
  status: number,
  answer: unknown,
): Promise<void> {
  await tx.receipt.update({ where: { id }, data: { status, answer: answer as Prisma.InputJsonValue } });
}
