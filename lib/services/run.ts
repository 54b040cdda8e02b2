import { database, RolledBack, type Transaction, transaction } from "@/lib/data/client";
import { type Result, refuse } from "@/lib/errors/result";

/** Runs a use case in a transaction of its own; a refusal undoes whatever it had written. */
export async function inTransaction<Value, Reason extends string>(
  useCase: (tx: Transaction) => Promise<Result<Value, Reason>>,
): Promise<Result<Value, Reason>> {
  try {
    return await transaction(async (tx) => {
      const result = await useCase(tx);
      if (!result.ok) throw new RolledBack(result.reason);
      return result;
    });
  } catch (fault) {
    if (fault instanceof RolledBack) return refuse(fault.reason as Reason);
    throw fault;
  }
}

/** Runs what only reads, outside a transaction. */
export function reading<Value>(read: (tx: Transaction) => Promise<Value>): Promise<Value> {
  return read(database());
}
