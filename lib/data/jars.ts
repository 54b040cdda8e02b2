import type { GradeMeasures } from "@/shared/schemas/grade";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { Transaction } from "./client";

/** A recorded box of a grower's, with what bears on putting it into jars. */
export interface JarableRow {
  readonly boxId: string;
  readonly code: string;
  readonly outingId: string;
  readonly setCode: string;
  /** The planned day of its set, midnight UTC. */
  readonly day: Date;
  readonly openedAt: Date | null;
  /** Of the record that stands. */
  readonly measures: GradeMeasures;
  /** What was drawn for it. */
  readonly content: VariantContent;
  /** What is in each jar that holds some of it. */
  readonly inJars: readonly { readonly jarId: string; readonly grainG: number }[];
}

const JARABLE = (growerId: string) =>
  ({
    id: true,
    code: true,
    outing: { select: { id: true, code: true, day: true } },
    events: {
      where: { kind: "opened", withdrawnBy: null },
      select: { occurredAt: true },
    },
    grades: {
      where: { graderId: growerId, masked: false },
      orderBy: { revision: "desc" },
      take: 1,
      select: { measures: true },
    },
    allocation: { select: { arm: { select: { variant: { select: { content: true } } } } } },
    jars: { select: { jarId: true, grainG: true } },
  }) as const;

/**
 * Recorded boxes of a grower's own, of the newest sets first; all of them, or those named, so many at most.
 * A box without a record is never among them: its recipe stays unseen until then.
 */
export async function recordedBoxes(
  tx: Transaction,
  growerId: string,
  { boxIds, most }: { readonly boxIds?: readonly string[]; readonly most: number },
): Promise<JarableRow[]> {
  const boxes = await tx.box.findMany({
    where: {
      ...(boxIds ? { id: { in: [...boxIds] } } : {}),
      outing: { growerId },
      grades: { some: { graderId: growerId, masked: false } },
    },
    orderBy: [{ outingId: "desc" }, { position: "asc" }],
    take: most,
    select: JARABLE(growerId),
  });
  return boxes.flatMap(({ id, code, outing, events, grades, allocation, jars }) => {
    const [grade] = grades;
    if (!grade || !allocation) return [];
    return {
      boxId: id,
      code,
      outingId: outing.id,
      setCode: outing.code,
      day: outing.day,
      openedAt: events[0]?.occurredAt ?? null,
      measures: grade.measures as unknown as GradeMeasures,
      content: allocation.arm.variant.content as unknown as VariantContent,
      inJars: jars,
    };
  });
}

/** Holds boxes of this grower until the transaction ends, so that no two jars take the same grain; how many there are. */
export async function lockOwnBoxes(
  tx: Transaction,
  growerId: string,
  boxIds: readonly string[],
): Promise<number> {
  const locked = await tx.$queryRaw<unknown[]>`
    SELECT box.id FROM box JOIN outing ON outing.id = box.outing_id
    WHERE box.id = ANY(${[...boxIds]}::uuid[]) AND outing.grower_id = ${growerId}::uuid
    ORDER BY box.id FOR UPDATE OF box`;
  return locked.length;
}

export interface JarContents {
  readonly sugarG: number;
  readonly madeAt: Date;
  readonly boxes: readonly { readonly boxId: string; readonly grainG: number }[];
}

/** Keeps a jar; false when its id is taken. */
export async function insertJar(
  tx: Transaction,
  jar: JarContents & { readonly id: string; readonly growerId: string },
): Promise<boolean> {
  const { boxes, ...row } = jar;
  const { count } = await tx.jar.createMany({ data: [row], skipDuplicates: true });
  if (count === 0) return false;
  await tx.jarBox.createMany({ data: boxes.map((box) => ({ ...box, jarId: jar.id })) });
  return true;
}

/** Puts other contents in place of those of a jar's version given; false when it has changed since. */
export async function replaceJar(
  tx: Transaction,
  id: string,
  basedOn: number,
  { boxes, ...row }: JarContents,
): Promise<boolean> {
  const { count } = await tx.jar.updateMany({
    where: { id, version: basedOn },
    data: { ...row, version: { increment: 1 } },
  });
  if (count === 0) return false;
  await tx.jarBox.deleteMany({ where: { jarId: id } });
  await tx.jarBox.createMany({ data: boxes.map((box) => ({ ...box, jarId: id })) });
  return true;
}

export async function deleteJar(tx: Transaction, growerId: string, id: string): Promise<boolean> {
  return (await tx.jar.deleteMany({ where: { id, growerId } })).count === 1;
}

/** A page of a grower's jars, the newest first; `before` is a jar's id. */
export function jarsOf(tx: Transaction, growerId: string, limit: number, before?: string) {
  return tx.jar.findMany({
    where: { growerId, ...(before ? { id: { lt: before } } : {}) },
    orderBy: { id: "desc" },
    take: limit,
    include: { boxes: { include: { box: { select: { code: true } } } } },
  });
}

export function findOwnJar(tx: Transaction, growerId: string, id: string) {
  return tx.jar.findFirst({ where: { id, growerId }, include: { boxes: true } });
}
