import { DataTable } from "@/lib/ui/components/data-table";
import { percent, whole } from "@/lib/ui/format";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";
import type { PoolResult } from "@/shared/schemas/pool";

/** Lost boxes of every recipe, all climate groups together. */
export function LossTable({ result, nameOf }: { result: PoolResult; nameOf: (arm: string) => string }) {
  const { columns } = words;
  return (
    <div className="max-w-[52em]">
      <DataTable
        caption={words.lossCaption}
        columns={[
          { key: "recipe", label: columns.recipe },
          { key: "share", label: words.lossShare, numeric: true },
          { key: "interval", label: columns.interval, numeric: true },
          { key: "lost", label: columns.lost, numeric: true },
          { key: "unmeasured", label: columns.unmeasured, numeric: true },
          { key: "boxes", label: columns.boxes, numeric: true },
          { key: "sets", label: columns.sets, numeric: true },
          { key: "growers", label: columns.growers, numeric: true },
        ]}
        rows={result.loss.map(
          ({ arm, share, lower, upper, reason, lost, unmeasured, boxes, outings, growers }) => ({
            recipe: nameOf(arm),
            share: share === null ? (reason ? words.reason[reason] : words.notThere) : percent(share),
            interval:
              lower === null || upper === null ? words.notThere : words.range(percent(lower), percent(upper)),
            lost: count(lost),
            unmeasured: count(unmeasured),
            boxes: count(boxes),
            sets: count(outings),
            growers: count(growers),
          }),
        )}
      />
    </div>
  );
}

function count(value: number | null): string {
  return value === null ? words.notThere : whole(value);
}
