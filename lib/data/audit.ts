import { v7 } from "uuid";
import type { Transaction } from "./client";
import type { Prisma } from "./generated/client";

/** Adds to the audit trail, by pseudonym. `detail` holds no name, address or words of anybody's own. */
export async function insertAuditEntry(
  tx: Transaction,
  entry: {
    growerId: string | null;
    action: string;
    subjectId?: string;
    detail?: Prisma.InputJsonObject;
  },
): Promise<void> {
  await tx.auditEntry.create({ data: { id: v7(), ...entry } });
}
