import type { GroupProgress } from "@/lib/services/lead/read";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { ClimateGrouping } from "@/shared/vocabulary/climate";
import { TAKE_CLASSES } from "@/shared/vocabulary/growth";
import { CountList } from "./count-list";

const words = deskMessages.progress;
const COUNTS = Object.entries(words.counts) as [keyof typeof words.counts, string][];

interface Props {
  readonly progress: readonly GroupProgress[];
  readonly grouping: ClimateGrouping;
}

/** Sets, boxes and growth of each climate group, and how its regions bear it; all recipes together. */
export function GroupCards({ progress, grouping }: Props) {
  return (
    <div className="mb-6 grid gap-4 lg:grid-cols-2">
      {progress.map((group) => {
        const known = grouping.find(({ code }) => code === group.band);
        return (
          <section key={group.band} className="rounded-[5px] border-2 border-line p-3.5">
            <h3 className="mb-2">
              {vocabularyMessages.climateGroupName(known ?? { code: group.band, classes: [] })}
            </h3>
            <CountList items={COUNTS.map(([key, label]) => ({ label, count: group[key] }))} />
            <h4 className="mt-3 mb-1 font-semibold">{words.growth}</h4>
            <CountList
              items={TAKE_CLASSES.map((take) => ({
                label: `${take} ${vocabularyMessages.growth[take].name}`,
                count: group.growth[take]!,
              }))}
            />
            <Regions regions={group.regions} />
          </section>
        );
      })}
    </div>
  );
}

function Regions({ regions }: Pick<GroupProgress, "regions">) {
  return (
    <>
      <h4 className="mt-3 mb-1 font-semibold">{words.regions}</h4>
      <ul>
        {regions.map(({ region, households, sets, boxes, recorded }) => (
          <li key={region} className="py-1">
            <span className="font-semibold">{region}:</span> {words.region(households, sets, boxes, recorded)}
          </li>
        ))}
      </ul>
    </>
  );
}
