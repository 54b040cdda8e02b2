import type { CorrectionAnswer, CorrectionKind } from "@/shared/vocabulary/desk";
import type { Transaction } from "./client";

/** A request to look at a box's record again. */
export interface CorrectionRequest {
  readonly id: string;
  readonly kind: CorrectionKind;
  /** The lead's own words; null where none were written or their writer's account is gone. */
  readonly words: string | null;
  readonly boxId: string;
  /** Such as `K7Q-2`. */
  readonly boxCode: string;
  readonly askedAt: Date;
  readonly answeredAt: Date | null;
  readonly answer: CorrectionAnswer | null;
}

export async function insertRequest(
  tx: Transaction,
  request: {
    id: string;
    trialId: string;
    boxId: string;
    askedById: string;
    kind: CorrectionKind;
    askedAt: Date;
  },
): Promise<void> {
  await tx.correctionRequest.create({ data: request });
}

/** Whether a request of this kind waits for an answer about a box. */
export async function isAsked(tx: Transaction, boxId: string, kind: CorrectionKind): Promise<boolean> {
  return (await tx.correctionRequest.count({ where: { boxId, kind, answeredAt: null } })) > 0;
}

/** How many requests of a trial wait for an answer. */
export function countOpenRequests(tx: Transaction, trialId: string): Promise<number> {
  return tx.correctionRequest.count({ where: { trialId, answeredAt: null } });
}

/** A grower's answer to a request about a box of theirs; false when there is no such request still open. */
export async function answerRequest(
  tx: Transaction,
  { id, growerId, at }: { readonly id: string; readonly growerId: string; readonly at: Date },
): Promise<boolean> {
  const answer: CorrectionAnswer = "stands";
  const { count } = await tx.correctionRequest.updateMany({
    where: { id, answeredAt: null, box: { outing: { growerId } } },
    data: { answeredAt: at, answer },
  });
  return count === 1;
}

/** Ends every open request about a box: something new is recorded of it. */
export async function answerByRecord(tx: Transaction, boxId: string, at: Date): Promise<void> {
  const answer: CorrectionAnswer = "recorded-anew";
  await tx.correctionRequest.updateMany({
    where: { boxId, answeredAt: null },
    data: { answeredAt: at, answer },
  });
}

/** The open requests about a grower's boxes, oldest first, with the way to each box. */
export async function requestsToGrower(
  tx: Transaction,
  growerId: string,
): Promise<
  (CorrectionRequest & {
    readonly trialTitle: string;
    readonly outingId: string;
    readonly position: number;
  })[]
> {
  const rows = await tx.correctionRequest.findMany({
    where: { answeredAt: null, box: { outing: { growerId } } },
    include: { ...BOX, trial: { select: { title: true } } },
    orderBy: { askedAt: "asc" },
  });
  const words = await wordsOf(tx, rows);
  return rows.map((row) => ({
    ...requestOf(row, words),
    trialTitle: row.trial.title,
    outingId: row.box.outingId,
    position: row.box.position,
  }));
}

/** A page of a trial's requests: the open ones oldest first, or the answered ones, the latest answer first. */
export async function requestsOfTrial(
  tx: Transaction,
  trialId: string,
  { open, skip, take }: { readonly open: boolean; readonly skip: number; readonly take: number },
): Promise<CorrectionRequest[]> {
  const rows = await tx.correctionRequest.findMany({
    where: { trialId, answeredAt: open ? null : { not: null } },
    include: BOX,
    orderBy: [open ? { askedAt: "asc" } : { answeredAt: "desc" }, { id: "asc" }],
    skip,
    take,
  });
  const words = await wordsOf(tx, rows);
  return rows.map((row) => requestOf(row, words));
}

/** Every request about one box, the latest first. */
export async function requestsOfBox(tx: Transaction, boxId: string): Promise<CorrectionRequest[]> {
  const rows = await tx.correctionRequest.findMany({
    where: { boxId },
    include: BOX,
    orderBy: { askedAt: "desc" },
  });
  const words = await wordsOf(tx, rows);
  return rows.map((row) => requestOf(row, words));
}

const BOX = { box: { select: { code: true, position: true, outingId: true } } } as const;

type RequestRow = Awaited<ReturnType<Transaction["correctionRequest"]["findFirstOrThrow"]>> & {
  readonly box: { readonly code: string };
};

async function wordsOf(
  tx: Transaction,
  rows: readonly { readonly id: string }[],
): Promise<ReadonlyMap<string, string>> {
  if (rows.length === 0) return new Map();
  const texts = await tx.freeText.findMany({ where: { subjectId: { in: rows.map(({ id }) => id) } } });
  return new Map(texts.map(({ subjectId, text }) => [subjectId, text]));
}

function requestOf(row: RequestRow, words: ReadonlyMap<string, string>): CorrectionRequest {
  return {
    id: row.id,
    kind: row.kind as CorrectionKind,
    words: words.get(row.id) ?? null,
    boxId: row.boxId,
    boxCode: row.box.code,
    askedAt: row.askedAt,
    answeredAt: row.answeredAt,
    answer: row.answer as CorrectionAnswer | null,
  };
}
