import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { outingsOf } from "@/lib/data/outings";
import type { StoredPlan } from "@/shared/schemas/plan";
import type { SiteClimateRecord } from "@/shared/schemas/site-climate";
import type { BoxEventKind } from "@/shared/vocabulary/box";
import type { TakeClass } from "@/shared/vocabulary/growth";
import { type Due, dueOf } from "./due";
import { fetchDayOf } from "./fetch-day";

const PAGE = 20;

export interface OutingListItem {
  readonly id: string;
  readonly trialTitle: string;
  readonly siteName: string | null;
  /** `YYYY-MM-DD` */
  readonly day: string;
  readonly due: Due;
  readonly boxes: readonly {
    readonly position: number;
    readonly code: string;
    /** A grade without a growth class counts as recorded. */
    readonly state: "unrecorded" | "recorded" | TakeClass;
  }[];
}

/** A page of the actor's sets, newest first; `before` is the last id of the page before. */
export async function outingList(
  tx: Transaction,
  actor: Actor,
  before?: string,
): Promise<{ readonly items: readonly OutingListItem[]; readonly next: string | null }> {
  const rows = await outingsOf(tx, actor.growerId, PAGE + 1, before);
  const items = rows.slice(0, PAGE).map(
    (row): OutingListItem => ({
      id: row.id,
      trialTitle: row.trial.title,
      siteName: row.site.place?.name ?? null,
      day: row.day.toISOString().slice(0, 10),
      due: dueOf({
        status: row.status,
        pauses: row.trial.pauses,
        fetchAfterDays:
          fetchDayOf(row.trial.plan as unknown as StoredPlan, row.draw?.fetchAfterDays ?? null)?.afterDays ??
          null,
        monthlyMeanC:
          (row.site.place?.climate as unknown as SiteClimateRecord | undefined)?.monthlyMeanC ?? null,
        boxes: row.boxes.map((box) => ({
          position: box.position,
          graded: box.grades.length > 0,
          events: box.events.map((event) => ({ ...event, kind: event.kind as BoxEventKind })),
        })),
      }),
      boxes: row.boxes.map((box) => ({
        position: box.position,
        code: box.code,
        state: box.grades[0] ? ((box.grades[0].take as TakeClass | null) ?? "recorded") : "unrecorded",
      })),
    }),
  );
  return { items, next: rows.length > PAGE ? (items.at(-1)?.id ?? null) : null };
}
