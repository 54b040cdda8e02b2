import type { TrialPause } from "@/lib/services/plan-history";
import { dayWords } from "../format";
import { pauseMessages as words } from "../messages/en/pauses";

type Standing = Pick<TrialPause, "reason" | "pausedAt">;

/** That a trial stands still, what that means, and the caution that goes with it. */
export function PauseNotice({ pause }: { pause: Standing }) {
  return (
    <div className="mb-5 max-w-[44em] rounded-[5px] border-2 border-due bg-due-ground px-3.5 py-2.5">
      <p className="font-semibold text-due">
        {words.stands(words.reasons[pause.reason], dayWords(dayOf(pause.pausedAt)))}
      </p>
      <p className="mt-1.5">{words.meaning}</p>
      <p className="mt-1.5">{words.caution}</p>
    </div>
  );
}

/** Every pause of a trial with its days, first to last; nothing where there was none. */
export function PauseList({ pauses }: { pauses: readonly TrialPause[] }) {
  if (pauses.length === 0) return null;
  return (
    <>
      <h3 className="mb-1">{words.title}</h3>
      <ul className="mb-6 max-w-[44em]">
        {pauses.map(({ reason, pausedAt, resumedAt }) => {
          const from = dayWords(dayOf(pausedAt));
          const why = words.reasons[reason];
          return (
            <li key={pausedAt.toISOString()} className="border-b border-line py-2">
              {resumedAt ? words.ended(why, from, dayWords(dayOf(resumedAt))) : words.standing(why, from)}
            </li>
          );
        })}
      </ul>
    </>
  );
}

function dayOf(moment: Date): string {
  return moment.toISOString().slice(0, 10);
}
