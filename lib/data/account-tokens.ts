import type { Transaction } from "./client";

export async function insertResetToken(
  tx: Transaction,
  token: { id: string; accountId: string; tokenHash: string; expiresAt: Date },
): Promise<void> {
  await tx.accountToken.create({ data: { ...token, kind: "reset" } });
}

/** Whether a link is still good, without using it. */
export async function resetTokenAccount(
  tx: Transaction,
  tokenHash: string,
  now: Date,
): Promise<{ id: string; name: string; email: string } | null> {
  const found = await tx.accountToken.findFirst({
    where: { tokenHash, kind: "reset", usedAt: null, expiresAt: { gt: now }, account: { disabledAt: null } },
    select: { account: { select: { id: true, name: true, email: true } } },
  });
  return found?.account ?? null;
}

/** Uses a link up and with it every other the account has; false when somebody else was quicker. */
export async function spendResetToken(
  tx: Transaction,
  tokenHash: string,
  accountId: string,
  now: Date,
): Promise<boolean> {
  const { count } = await tx.accountToken.updateMany({
    where: { tokenHash, usedAt: null, expiresAt: { gt: now } },
    data: { usedAt: now },
  });
  if (count === 0) return false;
  await tx.accountToken.updateMany({ where: { accountId, usedAt: null }, data: { usedAt: now } });
  return true;
}
