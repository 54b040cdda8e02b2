import type { Transaction } from "./client";

export async function insertHelperLink(
  tx: Transaction,
  link: { id: string; accountId: string; outingId: string; tokenHash: string; expiresAt: Date },
): Promise<void> {
  await tx.helperLink.create({ data: link });
}

/** A link that holds at `now`, with whose it is and the boxes it is about; null for any other. */
export function findHelperLink(tx: Transaction, tokenHash: string, now: Date) {
  return tx.helperLink.findFirst({
    where: { tokenHash, revokedAt: null, expiresAt: { gt: now }, account: { disabledAt: null } },
    select: {
      accountId: true,
      outingId: true,
      expiresAt: true,
      account: { select: { growerId: true } },
      outing: { select: { boxes: { select: { id: true } } } },
    },
  });
}

export interface HelperLinkRow {
  readonly createdAt: Date;
  readonly expiresAt: Date;
}

/** The account's link to a set that holds at `now`, or null. */
export function holdingLink(
  tx: Transaction,
  accountId: string,
  outingId: string,
  now: Date,
): Promise<HelperLinkRow | null> {
  return tx.helperLink.findFirst({
    where: { accountId, outingId, revokedAt: null, expiresAt: { gt: now } },
    select: { createdAt: true, expiresAt: true },
  });
}

/** Ends every link of the account to a set; says how many held until then. */
export async function revokeLinks(
  tx: Transaction,
  accountId: string,
  outingId: string,
  at: Date,
): Promise<number> {
  const { count } = await tx.helperLink.updateMany({
    where: { accountId, outingId, revokedAt: null, expiresAt: { gt: at } },
    data: { revokedAt: at },
  });
  return count;
}
