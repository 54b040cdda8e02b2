import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { ownData } from "@/lib/data/own-data";

/** Everything kept about somebody, as one document for them to take away. */
export async function ownDataDocument(tx: Transaction, actor: Actor, now: Date) {
  return { format: "grainlot-own-data", version: 1, madeAt: now, ...(await ownData(tx, actor)) };
}
