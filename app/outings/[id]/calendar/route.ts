import { requireActor } from "@/lib/auth/session";
import { env } from "@/lib/env";
import { problem } from "@/lib/http/problem";
import { datesOf } from "@/lib/services/growing/outing-dates";
import { outingView } from "@/lib/services/growing/outing-view";
import { reading } from "@/lib/services/run";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { setCalendar } from "@/lib/ui/print/set-calendar";
import { isUuid } from "@/shared/schemas/id";

interface Context {
  params: Promise<{ id: string }>;
}

/** The days of a set of the actor's as a calendar file. */
export async function GET(_request: Request, { params }: Context): Promise<Response> {
  const { id } = await params;
  const actor = await requireActor(`/outings/${id}/calendar`);
  const outing = isUuid(id) ? await reading((tx) => outingView(tx, actor, id)) : null;
  if (!outing) return problem("NOT_FOUND");
  const { code, trial } = outing;
  const url = new URL(`/outings/${id}`, env().NEXTAUTH_URL).href;
  const text = setCalendar({ id, code, trialTitle: trial.title, url, ...datesOf(outing) });
  if (text === null) return problem("NO_DAY_TO_COME");
  return new Response(text, {
    headers: {
      "content-type": "text/calendar; charset=utf-8",
      "content-disposition": `attachment; filename="${setMessages.calendar.fileName(code)}"`,
      "cache-control": "no-store",
    },
  });
}
