import type { Transaction } from "./client";

/** What decides who somebody is and what they may do. */
const STANDING = {
  id: true,
  name: true,
  isAdmin: true,
  mayLead: true,
  sessionVersion: true,
  disabledAt: true,
  growerId: true,
  grower: { select: { householdId: true } },
} as const;

export function accountStanding(tx: Transaction, accountId: string) {
  return tx.account.findUnique({ where: { id: accountId }, select: STANDING });
}

/** `email` in lower case, as it is stored. */
export function accountForSignIn(tx: Transaction, email: string) {
  return tx.account.findUnique({
    where: { email },
    select: { id: true, passwordHash: true, sessionVersion: true, disabledAt: true },
  });
}
