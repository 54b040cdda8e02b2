import Link from "next/link";
import type { ReactNode } from "react";
import type { LeadTrialView, OpeningFault } from "@/lib/services/lead/read";
import { dayWords, decimal } from "@/lib/ui/format";
import { leadMessages } from "@/lib/ui/messages/en/lead";

const words = leadMessages.draft.steps;

type Step = Exclude<keyof typeof words, "title">;

/** Where each fault is mended. */
const MENDED_AT: Readonly<Record<OpeningFault, Step>> = {
  ENDS_IN_PAST: "question",
  GROUPING_FAULTY: "question",
  NO_REGION: "regions",
  TOO_FEW_RECIPES: "recipes",
  REFERENCE_NOT_IN_TRIAL: "decided",
  FETCH_AFTER_END: "decided",
  ENDS_BEFORE_MINIMUM: "decided",
};

/** All a draft needs before it opens: what each part says, or what it lacks, and the way there. */
export function DraftSteps({ view }: { view: LeadTrialView }) {
  const { trial, openingFaults } = view;
  const page = `/lead/trials/${trial.id}`;
  const steps: readonly (readonly [Step, string])[] = [
    ["question", `${page}/edit`],
    ["regions", `${page}/edit#regions`],
    ["recipes", "#recipes"],
    ["design", `${page}/design`],
    ["decided", `${page}/plan`],
    ["open", "#open"],
  ];
  const says = sayings(view);
  return (
    <nav aria-label={words.title} className="mb-6">
      <ol className="max-w-[44em] border-t border-line">
        {steps.map(([step, href]) => {
          const fault = openingFaults.find((each) => MENDED_AT[each] === step);
          const isDue = fault !== undefined || (step === "design" && isPlannedForOthers(view));
          return (
            <li key={step} className="border-b border-line">
              <StepLink href={href}>
                <span className="font-semibold underline">{words[step].title}</span>
                <span className={isDue ? "font-semibold text-due" : "text-quiet"}>
                  {fault ? leadMessages.outcomes[fault] : says[step]}
                </span>
              </StepLink>
            </li>
          );
        })}
      </ol>
    </nav>
  );
}

function StepLink({ href, children }: { href: string; children: ReactNode }) {
  const look = "flex min-h-[56px] flex-col justify-center py-2 no-underline";
  // On the same page the browser itself has to follow: only then a folded part learns of it.
  return href.startsWith("#") ? (
    <a href={href} className={look}>
      {children}
    </a>
  ) : (
    <Link href={href} className={look}>
      {children}
    </Link>
  );
}

/** Whether the number of growers was worked out for another number of recipes than there are. */
function isPlannedForOthers({ trial, choices }: LeadTrialView): boolean {
  const planned = choices.sampleSize?.recipes;
  return planned !== undefined && planned !== trial.arms.length && trial.arms.length > 0;
}

/** What each part says while nothing is wrong with it. */
function sayings(view: LeadTrialView): Readonly<Record<Step, string>> {
  const { trial, choices, openingFaults } = view;
  const { length: recipes } = trial.arms;
  const seats = trial.regions.reduce((sum, { capacity }) => sum + capacity, 0);
  const size = choices.sampleSize;
  const { label } = leadMessages.choices.comparisons[choices.primaryComparison.kind];
  return {
    question: words.question.says(
      trial.boxesMin,
      trial.boxesMax,
      dayWords(trial.endsOn),
      trial.grouping.length,
    ),
    regions: words.regions.says(trial.regions.length, seats),
    recipes: words.recipes.says(recipes),
    design: !size
      ? words.design.none
      : isPlannedForOthers(view)
        ? words.design.forOthers(size.recipes, recipes)
        : words.design.some(size.growersPerGroup),
    decided: words.decided.says(label, decimal(choices.margin, 2)),
    open: openingFaults.length > 0 ? words.open.notYet : words.open.ready,
  };
}
