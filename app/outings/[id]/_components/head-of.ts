import { isToCome } from "@/app/outings/_components/is-to-come";
import type { OutingView } from "@/lib/services/growing/outing-view";
import { weekdayWords } from "@/lib/ui/format";
import { stepMessages as words } from "@/lib/ui/messages/en/set-steps";
import { setMessages } from "@/lib/ui/messages/en/sets";

export interface Head {
  readonly title: string;
  readonly lead: string | readonly string[];
}

/** What a drawn set waits for, and what there is to know of it. */
export function headOf({ due, fetchDay }: Pick<OutingView, "due" | "fetchDay">): Head {
  switch (due.kind) {
    case "cook":
      return words.cook;
    case "set-out":
      return words.setOut;
    case "record":
      return words.record;
    case "fetch-on": {
      const day = setMessages.outings.due.fetchOn(weekdayWords(due.day));
      return {
        title: day,
        lead: [isToCome(due.day) ? words.fetch.wait : words.fetch.lead, ruleOf(fetchDay)],
      };
    }
    case "fetch": {
      const { earliest, likely } = due;
      const { fetchBetween, fetchUnknown } = setMessages.outings.due;
      if (!earliest || !likely) return { title: words.fetch.title, lead: [fetchUnknown, words.fetch.lead] };
      return {
        title: fetchBetween(weekdayWords(earliest), weekdayWords(likely)),
        lead: isToCome(earliest) ? words.fetch.wait : words.fetch.lead,
      };
    }
    default:
      return words.done;
  }
}

const ruleOf = (fetchDay: OutingView["fetchDay"]) =>
  fetchDay?.isDrawn ? setMessages.outing.fetchDrawn : setMessages.outing.fetchSameDay;
