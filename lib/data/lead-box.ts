import type { GradeMeasures } from "@/shared/schemas/grade";
import { type BoxEventKind, COOKING_EVENTS } from "@/shared/vocabulary/box";
import type { TakeClass } from "@/shared/vocabulary/growth";
import type { Transaction } from "./client";

/** Own words or a picture, and whether a lead has hidden it. */
export interface Hideable {
  readonly id: string;
  readonly hiddenReason: string | null;
}

/** A grower's own words about an event or a reading, by its id. */
export interface BoxWords extends Hideable {
  readonly subjectId: string;
  readonly text: string;
}

/** A picture of the box, or of the whole set it belongs to. */
export interface BoxPicture extends Hideable {
  readonly ofSet: boolean;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** A box's record as its trial's lead may read it: no recipe, no place, nobody's name. */
export interface LeadBox {
  readonly id: string;
  readonly code: string;
  readonly pseudonym: string;
  /** Whether its grower still has an account: whom a request can reach. */
  readonly isReachable: boolean;
  /** In the order they happened; `withdrawn` where the grower took one back. */
  readonly events: readonly {
    readonly id: string;
    readonly kind: BoxEventKind;
    readonly occurredAt: Date;
    readonly offsetMinutes: number;
    readonly withdrawn: boolean;
  }[];
  /** The grower's own readings, the standing one first. */
  readonly grades: readonly {
    readonly id: string;
    readonly revision: number;
    readonly measures: GradeMeasures;
    readonly take: TakeClass | null;
    readonly recordedAt: Date;
    readonly offsetMinutes: number;
  }[];
  readonly words: readonly BoxWords[];
  readonly pictures: readonly BoxPicture[];
}

/**
 * A drawn box of a trial by the code on its label, or null.
 * @param withCookingWords own words about the cooking can name the grain: they wait for the trial's close
 */
export async function findLeadBox(
  tx: Transaction,
  trialId: string,
  code: string,
  withCookingWords: boolean,
): Promise<LeadBox | null> {
  const box = await tx.box.findFirst({
    where: { code, outing: { trialId, committedAt: { not: null } } },
    include: {
      outing: {
        include: {
          enrolment: { select: { pseudonym: true } },
          grower: { select: { account: { select: { id: true } } } },
          photos: { orderBy: { id: "asc" } },
        },
      },
      events: {
        where: { kind: { not: "withdrawal" } },
        include: { withdrawnBy: { select: { id: true } } },
        orderBy: [{ occurredAt: "asc" }, { id: "asc" }],
      },
      photos: { orderBy: { id: "asc" } },
    },
  });
  if (!box) return null;
  const { outing, events } = box;
  const grades = await tx.grade.findMany({
    where: { boxId: box.id, graderId: outing.growerId, masked: false },
    orderBy: { revision: "desc" },
  });
  const spoken = events.filter(
    ({ kind }) => withCookingWords || !COOKING_EVENTS.some((cooking) => cooking === kind),
  );
  const words = await tx.freeText.findMany({
    where: { subjectId: { in: [...spoken, ...grades].map(({ id }) => id) } },
    orderBy: { id: "asc" },
  });
  return {
    id: box.id,
    code: box.code,
    pseudonym: outing.enrolment.pseudonym,
    isReachable: outing.grower.account !== null,
    events: events.map(({ withdrawnBy, ...event }) => ({
      ...event,
      kind: event.kind as BoxEventKind,
      withdrawn: withdrawnBy !== null,
    })),
    grades: grades.map((grade) => ({
      ...grade,
      measures: grade.measures as unknown as GradeMeasures,
      take: grade.take as TakeClass | null,
    })),
    words,
    pictures: [...box.photos, ...outing.photos].map((photo) => ({
      id: photo.id,
      hiddenReason: photo.hiddenReason,
      ofSet: photo.boxId === null,
      widthPx: photo.widthPx,
      heightPx: photo.heightPx,
    })),
  };
}

/** The account of whoever set a box out, or null when it is gone. For writing to them; no page shows it. */
export async function accountOfBox(tx: Transaction, boxId: string) {
  const account = await tx.account.findFirst({
    where: { grower: { outings: { some: { boxes: { some: { id: boxId } } } } } },
    select: { id: true, name: true, email: true, leadMailsOff: true, disabledAt: true },
  });
  return account && { ...account, byMail: !account.leadMailsOff && account.disabledAt === null };
}
