import type { LeadTrialRow } from "@/lib/services/lead/read";
import { Facts } from "@/lib/ui/components/facts";
import { dayWords } from "@/lib/ui/format";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";

const words = leadMessages.plan;

/** What the trial promises, or will once it opens. */
export function Plan({ trial }: { trial: LeadTrialRow }) {
  const { plan, planHash, seal } = trial;
  return (
    <section>
      <h2 className="mb-2">{words.title}</h2>
      <Facts
        items={[
          { label: words.question, value: trial.question },
          { label: words.boxes, value: words.boxesRange(trial.boxesMin, trial.boxesMax) },
          { label: words.endsOn, value: <time dateTime={trial.endsOn}>{dayWords(trial.endsOn)}</time> },
          { label: words.groups, value: <Groups trial={trial} /> },
          ...(plan
            ? [
                {
                  label: words.minimum,
                  value: words.minimumCell(plan.minimum.boxesPerCell, plan.minimum.growersPerCell),
                },
              ]
            : []),
          { label: words.early, value: words.earlyRule },
          ...(planHash && seal
            ? [{ label: words.proof, value: <code className="break-all text-[0.85em]">{seal}</code> }]
            : []),
          ...(trial.status === "draft" ? [{ label: words.regions, value: <Regions trial={trial} /> }] : []),
        ]}
      />
    </section>
  );
}

function Groups({ trial }: { trial: LeadTrialRow }) {
  return (
    <ul>
      {trial.grouping.map((group) => (
        <li key={group.code}>
          {vocabularyMessages.climateGroupName(group)}{" "}
          <span className="font-normal text-quiet">{group.classes.join(", ")}</span>
        </li>
      ))}
    </ul>
  );
}

function Regions({ trial }: { trial: LeadTrialRow }) {
  return (
    <ul>
      {trial.regions.map(({ name, capacity }) => (
        <li key={name}>
          {name} <span className="font-normal text-quiet">{leadMessages.draft.seats(capacity)}</span>
        </li>
      ))}
    </ul>
  );
}
