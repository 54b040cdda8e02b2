import { resultMessages as words } from "@/lib/ui/messages/en/results";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { sayAnswer } from "./answer";
import type { ResultsContext } from "./context";
import { places } from "./places";

/** What to cook in each climate group, in a sentence each; the reader's own group first. */
export function Answers({ context }: { context: ResultsContext }) {
  const { groups, empty, own, result, groupName, basis } = context;
  return (
    <section className="mb-8">
      <h2 className="mb-1">{result.interim ? words.shortInterim : words.short}</h2>
      <p className="mb-4 text-quiet">
        {words.shortLead} {basis ? words.waterToGrain(vocabularyMessages.ratioBasis[basis]) : null}
      </p>
      <ul className="grid gap-x-11 gap-y-6 lg:grid-cols-2">
        {groups.map(({ code }) => {
          const { boxes, growers } = result.totals.byBand.find(({ band }) => band === code) ?? {};
          return (
            <li key={code} className={own.has(code) ? "border-l-6 border-act pl-3" : undefined}>
              {own.has(code) ? <p className="font-bold text-act">{words.ownGroup}</p> : null}
              <h3>{groupName(code)}</h3>
              <p className="my-1 max-w-[30em] text-[1.25rem] leading-snug text-pretty">
                {sayAnswer(code, context)}
              </p>
              <p className="flex flex-wrap items-center gap-x-4 text-[0.9375rem] text-quiet">
                {boxes != null && growers != null ? <span>{words.ofGroup(boxes, growers)}</span> : null}
                <a href={`#${places.group(code)}`} className="inline-flex min-h-11 items-center">
                  {words.details(groupName(code))}
                </a>
              </p>
            </li>
          );
        })}
      </ul>
      {empty.length > 0 ? (
        <p className="mt-4 text-quiet">{words.noBoxesFrom(empty.map(({ code }) => groupName(code)))}</p>
      ) : null}
    </section>
  );
}
