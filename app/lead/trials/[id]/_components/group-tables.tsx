import type { GroupProgress } from "@/lib/services/lead/read";
import { DataTable } from "@/lib/ui/components/data-table";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { ClimateGrouping } from "@/shared/vocabulary/climate";
import { TAKE_CLASSES } from "@/shared/vocabulary/growth";

const words = leadMessages.running;
const COUNTS = ["households", "sets", "abandoned", "boxes", "setOut", "opened", "recorded", "lost"] as const;

/** Sets, boxes and growth by climate group; all recipes together, by what the lead may see. */
export function GroupTables({
  progress,
  grouping,
}: {
  progress: readonly GroupProgress[];
  grouping: ClimateGrouping;
}) {
  const { progressColumns: columns } = words;
  const name = (band: string) =>
    vocabularyMessages.climateGroupName(
      grouping.find(({ code }) => code === band) ?? { code: band, classes: [] },
    );
  return (
    <>
      <DataTable
        caption={words.progressCaption}
        columns={[
          { key: "group", label: columns.group },
          ...COUNTS.map((key) => ({ key, label: columns[key], numeric: true })),
        ]}
        rows={progress.map(({ band, abandonedSets, ...counts }) => ({
          ...counts,
          growth: null,
          group: name(band),
          abandoned: abandonedSets,
        }))}
      />
      <DataTable
        caption={words.growthCaption}
        columns={[
          { key: "group", label: columns.group },
          ...TAKE_CLASSES.map((take) => ({
            key: String(take),
            label: `${take} ${vocabularyMessages.growth[take].name}`,
            numeric: true,
          })),
        ]}
        rows={progress.map(({ band, growth }) => ({
          group: name(band),
          ...Object.fromEntries(growth.map((boxes, take) => [String(take), boxes])),
        }))}
      />
    </>
  );
}
