import type { GradeMeasures } from "@/shared/schemas/grade";
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
  return grades.map((grade) => ({
    ...grade,
    measures: grade.measures as unknown as GradeMeasures,
    take: grade.take as TakeClass | null,
  }));
}

/** Keeps one revision of a grower's own reading; false when its id is taken. */
export async function insertGrade(tx: Transaction, grade: GradeRow): Promise<boolean> {
  const data = { ...grade, measures: grade.measures as unknown as Prisma.InputJsonValue, masked: false };
  const { count } = await tx.grade.createMany({ data: [data], skipDuplicates: true });
  return count === 1;
}
