import { DataTable } from "@/lib/ui/components/data-table";
import { decimal, percent, whole } from "@/lib/ui/format";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { PoolArmSummary, PoolReason } from "@/shared/schemas/pool";
import { TAKE_CLASSES } from "@/shared/vocabulary/growth";

interface Props {
  where: string;
  summaries: readonly PoolArmSummary[];
  nameOf: (arm: string) => string;
}

const { columns } = words;

/** Every figure of the pictures, with what it rests on. */
export function ArmTables({ where, summaries, nameOf }: Props) {
  return (
    <>
      <DataTable
        caption={words.countsCaption(where)}
        columns={[
          { key: "recipe", label: columns.recipe },
          { key: "mean", label: columns.mean, numeric: true },
          { key: "interval", label: columns.interval, numeric: true },
          ...BASE_COLUMNS,
        ]}
        rows={summaries.map(({ arm, mean, counts }) => ({
          recipe: nameOf(arm),
          mean: mean.estimate === null ? missing(mean.reason) : decimal(mean.estimate, 2),
          interval: interval(mean, (end) => decimal(end, 2)),
          ...base(mean, counts),
        }))}
      />
      <DataTable
        caption={words.classesCaption(where)}
        columns={[
          { key: "recipe", label: columns.recipe },
          ...TAKE_CLASSES.map((growth) => ({
            key: `growth${growth}`,
            label: vocabularyMessages.growth[growth].name,
            numeric: true,
          })),
        ]}
        rows={summaries.map(({ arm, distribution }) => ({
          recipe: nameOf(arm),
          ...Object.fromEntries(
            TAKE_CLASSES.map((growth) => [
              `growth${growth}`,
              distribution.classes ? distribution.classes[growth] : missing(distribution.reason, growth > 0),
            ]),
          ),
        }))}
      />
      <DataTable
        caption={words.cleanCaption(where)}
        columns={[
          { key: "recipe", label: columns.recipe },
          { key: "share", label: columns.clean, numeric: true },
          { key: "interval", label: columns.cleanInterval, numeric: true },
          ...BASE_COLUMNS,
        ]}
        rows={summaries.map(({ arm, cleanTake, counts }) => ({
          recipe: nameOf(arm),
          share: cleanTake.share === null ? missing(cleanTake.reason) : percent(cleanTake.share),
          interval: interval(cleanTake, percent),
          ...base(cleanTake, counts),
        }))}
      />
      <p className="-mt-4 mb-5 text-[0.9375rem] text-quiet">{words.cleanNote}</p>
    </>
  );
}

const BASE_COLUMNS = [
  { key: "boxes", label: columns.boxes, numeric: true },
  { key: "sets", label: columns.sets, numeric: true },
  { key: "growers", label: columns.growers, numeric: true },
  { key: "lost", label: columns.lost, numeric: true },
];

interface Base {
  readonly boxes: number | null;
  readonly outings: number | null;
  readonly growers: number | null;
}

function base(figure: Base, { lost }: { readonly lost: number | null }) {
  return {
    boxes: count(figure.boxes),
    sets: count(figure.outings),
    growers: count(figure.growers),
    lost: count(lost),
  };
}

function count(value: number | null): string {
  return value === null ? words.notThere : whole(value);
}

interface Interval {
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: PoolReason | null;
}

function interval({ lower, upper, reason }: Interval, write: (end: number) => string): string {
  if (lower === null || upper === null) return reason === "WITHHELD" ? words.notThere : missing(reason);
  return words.range(write(lower), write(upper));
}

/** The reason in words, once a row. */
function missing(reason: PoolReason | null, saidBefore = false): string {
  return reason && !saidBefore ? words.reason[reason] : words.notThere;
}
