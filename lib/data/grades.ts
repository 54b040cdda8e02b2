import type { GradeMeasures } from "@/shared/schemas/grade";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { TakeClass } from "@/shared/vocabulary/growth";
import type { Transaction } from "./client";
import type { Prisma } from "./generated/client";

export interface GradeRow {
  readonly id: string;
  readonly boxId: string;
  readonly graderId: string;
  readonly revision: number;
  readonly measures: GradeMeasures;
  readonly take: TakeClass | null;
  readonly cleanTake: boolean | null;
  readonly recordedAt: Date;
  readonly offsetMinutes: number;
  /** Recorded through a helper link. */
  readonly viaHelper: boolean;
}

/** The standing revision of a grower's own (unmasked) reading of each box that has one. */
export async function standingGrades(
  tx: Transaction,
  graderId: string,
  boxIds: readonly string[],
): Promise<GradeRow[]> {
  const grades = await tx.grade.findMany({
    where: { graderId, masked: false, boxId: { in: [...boxIds] } },
    orderBy: [{ boxId: "asc" }, { revision: "desc" }],
    distinct: ["boxId"],
  });
  return grades.map(gradeRow);
}

function gradeRow(
  grade: Omit<GradeRow, "measures" | "take"> & { measures: unknown; take: number | null },
): GradeRow {
  return { ...grade, measures: grade.measures as GradeMeasures, take: grade.take as TakeClass | null };
}

/** Keeps one revision of a grower's own reading; false when its id is taken. */
export async function insertGrade(tx: Transaction, grade: GradeRow): Promise<boolean> {
  const data = { ...grade, measures: grade.measures as unknown as Prisma.InputJsonValue, masked: false };
  const { count } = await tx.grade.createMany({ data: [data], skipDuplicates: true });
  return count === 1;
}

/** A drawn box of this grower by its place in a set, with what bears on recording it; never its recipe. */
export async function findBoxToRecord(tx: Transaction, growerId: string, outingId: string, position: number) {
  return tx.box.findFirst({
    where: { position, outing: { id: outingId, growerId, committedAt: { not: null } } },
    select: {
      id: true,
      code: true,
      events: { where: { kind: "opened", withdrawnBy: null }, select: { occurredAt: true } },
      outing: {
        select: {
          boxes: {
            orderBy: { position: "asc" },
            select: {
              id: true,
              position: true,
              _count: {
                select: {
                  grades: { where: { graderId: growerId, masked: false } },
                  events: { where: { kind: "growth-not-recordable", withdrawnBy: null } },
                },
              },
            },
          },
        },
      },
    },
  });
}

/** What was drawn for a box. */
export async function recipeOfBox(tx: Transaction, boxId: string): Promise<VariantContent | null> {
  const allocation = await tx.allocation.findUnique({
    where: { boxId },
    select: { arm: { select: { variant: { select: { content: true } } } } },
  });
  return allocation && (allocation.arm.variant.content as unknown as VariantContent);
}

/** Every revision of a grower's own (unmasked) reading of a box, the newest first. */
export async function gradeRevisions(tx: Transaction, graderId: string, boxId: string): Promise<GradeRow[]> {
  const grades = await tx.grade.findMany({
    where: { graderId, boxId, masked: false },
    orderBy: { revision: "desc" },
  });
  return grades.map(gradeRow);
}

/** An account's own words about each of these, by what they are about. */
export async function ownWords(
  tx: Transaction,
  accountId: string,
  subjectIds: readonly string[],
): Promise<ReadonlyMap<string, { readonly text: string; readonly hiddenReason: string | null }>> {
  const texts = await tx.freeText.findMany({
    where: { accountId, subjectId: { in: [...subjectIds] } },
    orderBy: { id: "asc" },
  });
  return new Map(texts.map(({ subjectId, text, hiddenReason }) => [subjectId, { text, hiddenReason }]));
}
