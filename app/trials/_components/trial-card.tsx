import Link from "next/link";
import type { TrialPage } from "@/lib/services/read-trials";
import { dayWords } from "@/lib/ui/format";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";

/** One trial of a list: its question, where it is, and what can be done. */
export function TrialCard({ trial }: { trial: TrialPage["trials"][number] }) {
  const isOpen = trial.status === "open";
  const parts = [
    trial.regions.join(", "),
    words.recipesCount(trial.recipes),
    isOpen ? words.endsOn(dayWords(trial.endsOn)) : words.endedOn(dayWords(trial.endsOn)),
    ...(trial.invented ? [words.inventedShort] : []),
  ].filter(Boolean);
  return (
    <li className="overflow-hidden rounded-[5px] border-2 border-ink">
      <div className="p-3.5">
        <h3 className="text-[1.125rem]">
          <Link href={`/trials/${trial.slug}`}>{trial.title}</Link>
        </h3>
        <p>{trial.question}</p>
        <p className="text-quiet">{parts.join(" · ")}</p>
      </div>
      <p className="bg-panel px-3.5 py-2 text-quiet">
        {isOpen ? (
          words.seatsLeft(trial.seatsLeft)
        ) : (
          <Link href={`/trials/${trial.slug}/results`}>
            {trial.released ? words.finalResults : words.results}
          </Link>
        )}
      </p>
    </li>
  );
}
