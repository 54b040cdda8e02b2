import type { Transaction } from "./client";

export interface TrialLeadRow {
  readonly accountId: string;
  readonly name: string;
}

/** Who leads a trial and can sign in. */
export async function leadsOf(tx: Transaction, trialId: string): Promise<TrialLeadRow[]> {
  const leads = await tx.trialLead.findMany({
    where: { trialId, account: { disabledAt: null } },
    include: { account: { select: { name: true } } },
    orderBy: { accountId: "asc" },
  });
  return leads.map(({ accountId, account }) => ({ accountId, name: account.name }));
}

/** The account with this address (lower case) if it can sign in and may make trials of its own, or null. */
export function accountThatMayLead(tx: Transaction, email: string) {
  return tx.account.findFirst({
    where: { email, disabledAt: null, OR: [{ mayLead: true }, { isAdmin: true }] },
    select: { id: true, name: true, email: true, growerId: true },
  });
}

/** Makes an account a lead of the trial; false when it is one. */
export async function insertTrialLead(tx: Transaction, trialId: string, accountId: string): Promise<boolean> {
  const { count } = await tx.trialLead.createMany({ data: [{ trialId, accountId }], skipDuplicates: true });
  return count === 1;
}

export async function deleteTrialLead(tx: Transaction, trialId: string, accountId: string): Promise<void> {
  await tx.trialLead.deleteMany({ where: { trialId, accountId } });
}
