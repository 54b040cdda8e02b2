import type { Refusal } from "@/lib/errors/result";
import { refuse } from "@/lib/errors/result";

/** How far a phone's clock may be ahead of ours. */
const CLOCK_LEAD_MS = 10 * 60_000;

/** Grain may be cooked this long before the day an outing is planned for, whenever it was drawn. */
const EARLIEST_BEFORE_DAY_MS = 2 * 24 * 3_600_000;

/** A moment told by a phone, with the offset of the place where it was noted (minutes east of UTC). */
export interface Moment {
  readonly at: Date;
  readonly offsetMinutes: number;
}

/** Reads an ISO 8601 date and time with offset, as `momentSchema` passes it. */
export function momentOf(text: string): Moment {
  const [, sign, hours, minutes] = /([+-])(\d{2}):?(\d{2})$/.exec(text) ?? [];
  const offsetMinutes = sign ? (sign === "-" ? -1 : 1) * (Number(hours) * 60 + Number(minutes)) : 0;
  return { at: new Date(text), offsetMinutes };
}

/** Why a moment can't belong to a box of an outing drawn then and planned for `day` (midnight UTC), or null. */
export function momentFault(
  { at }: Moment,
  { day, committedAt }: { readonly day: Date; readonly committedAt: Date | null },
  now: Date,
): Refusal<"MOMENT_IN_FUTURE" | "MOMENT_BEFORE_OUTING"> | null {
  if (isAhead(at, now)) return refuse("MOMENT_IN_FUTURE");
  const earliest = Math.min(day.getTime() - EARLIEST_BEFORE_DAY_MS, committedAt?.getTime() ?? Infinity);
  return at.getTime() < earliest ? refuse("MOMENT_BEFORE_OUTING") : null;
}

/** Whether a moment is still to come, by more than a phone's clock may be wrong. */
export function isAhead(at: Date, now: Date): boolean {
  return at.getTime() > now.getTime() + CLOCK_LEAD_MS;
}

/** The earliest calendar day, `YYYY-MM-DD`, that it may be anywhere on land: clocks go down to UTC − 12. */
export function earliestToday(now: Date): string {
  return new Date(now.getTime() - 12 * 3_600_000).toISOString().slice(0, 10);
}
