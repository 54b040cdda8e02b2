import { v7 } from "uuid";
import type { PoolResult } from "@/shared/schemas/pool";
import type { Transaction } from "./client";
import type { Prisma } from "./generated/client";
import type { StoredCut } from "./pool-boxes";

/** Keeps a result under the name of its cut. The same cut pooled by the same engine again changes nothing. */
export async function keepPoolResult(
  tx: Transaction,
  trialId: string,
  pooled: {
    readonly result: PoolResult;
    readonly published: PoolResult;
    readonly cut: string;
    readonly boxes: number;
    /** What `published` was worked out from, where later cuts have to be measured by it. */
    readonly shown?: StoredCut | null;
  },
): Promise<void> {
  const { result, published, cut, boxes, shown } = pooled;
  await tx.poolResult.createMany({
    data: {
      id: v7(),
      trialId,
      cutSha256: cut,
      engine: result.engine,
      boxes,
      result: result as unknown as Prisma.InputJsonValue,
      published: published as unknown as Prisma.InputJsonValue,
      shownBoxes: shown ? (shown as unknown as Prisma.InputJsonValue) : undefined,
    },
    skipDuplicates: true,
  });
}
