import Link from "next/link";
import type { MyThings } from "@/lib/services/growing/my-things";
import type { RecipeComparison, TrialComparison } from "@/lib/services/growing/own-comparison";
import { dayWords, decimal, percent } from "@/lib/ui/format";
import { myThingsMessages as words } from "@/lib/ui/messages/en/my-things";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { OwnGrowthLine } from "./own-growth-line";

/** One's own boxes beside everyone's, trial by trial; before results are out, why not. */
export function Comparisons({ comparisons }: Pick<MyThings, "comparisons">) {
  if (comparisons.length === 0) return null;
  return (
    <section className="mb-9 max-w-[44em]">
      <h2 className="mb-1">{words.compareTitle}</h2>
      <p className="mb-4 text-quiet">{words.compareLead}</p>
      {comparisons.map((comparison) => (
        <article key={comparison.slug} className="mb-6">
          <h3 className="mb-1">{comparison.title}</h3>
          <OfTrial comparison={comparison} />
        </article>
      ))}
    </section>
  );
}

function OfTrial({ comparison: { slug, endsOn, pending, results } }: { comparison: TrialComparison }) {
  if (results.state !== "out") {
    return (
      <>
        <p>{results.state === "hidden" ? words.hidden(dayWords(endsOn)) : words.onItsWay}</p>
        {results.state === "hidden" && pending.length > 0 ? (
          <p className="mt-1">{words.hiddenPending(pending)}</p>
        ) : null}
      </>
    );
  }
  return (
    <>
      {results.interim ? <p className="mb-2 font-semibold text-due">{words.interim}</p> : null}
      <p className="mb-2 text-[0.9375rem] text-quiet">{words.compareScale(percent(results.level))}</p>
      {results.groups.map(({ group, recipes }) => (
        <div key={group.code} className="mb-4">
          <p className="font-semibold">{vocabularyMessages.climateGroupName(group)}</p>
          <ul>
            {recipes.map((recipe) => (
              <li key={recipe.arm} className="border-b border-line py-2">
                <p>
                  {vocabularyMessages.recipeName(recipe.content)} ({recipe.arm})
                </p>
                <OwnGrowthLine recipe={recipe} />
                <p className="text-quiet">{mineWords(recipe)}</p>
                <p className="text-quiet">{everyoneWords(recipe)}</p>
              </li>
            ))}
          </ul>
        </div>
      ))}
      <Link href={`/trials/${slug}/results`} className="inline-flex min-h-[44px] items-center">
        {words.toResults}
      </Link>
    </>
  );
}

function mineWords({ own }: RecipeComparison): string {
  return words.mine(
    own.map(({ code, take }) =>
      words.ownBox(code, take === null ? words.notKnown : vocabularyMessages.growth[take].name.toLowerCase()),
    ),
  );
}

function everyoneWords({ everyone }: RecipeComparison): string {
  if (!everyone) return words.everyoneWithheld;
  const { mean, lower, upper } = everyone;
  return lower === null || upper === null
    ? words.everyoneOnly(decimal(mean, 1))
    : words.everyoneMean(decimal(mean, 1), decimal(lower, 1), decimal(upper, 1));
}
