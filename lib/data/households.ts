import type { Transaction } from "./client";

export async function insertHousehold(tx: Transaction, id: string, joinCode: string): Promise<void> {
  await tx.household.create({ data: { id, joinCode } });
}

export async function householdIdByJoinCode(tx: Transaction, joinCode: string): Promise<string | null> {
  const found = await tx.household.findUnique({ where: { joinCode }, select: { id: true } });
  return found?.id ?? null;
}
