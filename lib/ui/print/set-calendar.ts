import { createEvents, type DateArray, type EventAttributes } from "ics";
import { setMessages } from "@/lib/ui/messages/en/sets";

const words = setMessages.calendar;

/** What a calendar shows of a set of boxes. The place stays out of it: calendars are copied to other people's servers. */
export interface CalendarSet {
  readonly id: string;
  readonly code: string;
  readonly trialTitle: string;
  /** The set's page. */
  readonly url: string;
  /** `YYYY-MM-DD` */
  readonly setOut: string | null;
  readonly fetch: { readonly from: string; readonly to: string; readonly isFixed: boolean } | null;
}

/**
 * A calendar file (RFC 5545) with whole days for setting out and fetching; null where there is neither. The uid of an
 * entry stays when its day moves, so that taking the file in again moves it.
 */
export function setCalendar(set: CalendarSet): string | null {
  const { id, code, trialTitle, url, setOut, fetch } = set;
  const entries: EventAttributes[] = [];
  if (setOut) {
    entries.push({
      ...wholeDays(setOut, setOut),
      uid: `set-out-${id}@grainlot`,
      title: words.setOut(code),
      description: words.setOutWords(trialTitle, url),
    });
  }
  if (fetch) {
    entries.push({
      ...wholeDays(fetch.from, fetch.to),
      uid: `fetch-${id}@grainlot`,
      title: words.fetch(code),
      description: words.fetchWords(trialTitle, fetch.isFixed, url),
    });
  }
  if (entries.length === 0) return null;
  const { value, error } = createEvents(entries, { productId: "grainlot", calName: words.setOut(code) });
  if (error || !value) throw new Error(`The calendar of set ${code} can't be written.`, { cause: error });
  return value;
}

/** An entry from one day to another, both included; its end is the day after (RFC 5545, 3.6.1). */
function wholeDays(from: string, to: string): { start: DateArray; end: DateArray } {
  const parts = (date: Date): DateArray => [date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate()];
  const end = new Date(`${to}T00:00:00Z`);
  end.setUTCDate(end.getUTCDate() + 1);
  return { start: parts(new Date(`${from}T00:00:00Z`)), end: parts(end) };
}
