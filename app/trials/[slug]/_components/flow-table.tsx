import { DataTable } from "@/lib/ui/components/data-table";
import { whole } from "@/lib/ui/format";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { ReleaseManifest } from "@/shared/schemas/release";
import type { BoxEventKind } from "@/shared/vocabulary/box";

const STEPS = ["drawn", "cooked", "setOut", "opened", "recorded", "lost"] as const;

interface Props {
  /** A step that wasn't counted is left out. */
  readonly flow: ReleaseManifest["flow"] | null;
  /** Lost boxes by what happened to them, once a release tells. */
  readonly losses: readonly { readonly kind: string; readonly boxes: number }[];
  /** As released, not rounded down. */
  readonly exact: boolean;
}

/** Boxes from the draw to the record, without their recipes. */
export function FlowTable({ flow, losses, exact }: Props) {
  if (!flow) return <p className="text-quiet">{words.flowHidden}</p>;
  return (
    <>
      <p className="mb-2 text-quiet">{exact ? words.flowExact : words.flowLead}</p>
      <div className="max-w-[26em]">
        <DataTable
          caption={words.flowCaption}
          columns={[
            { key: "step", label: words.flowStep },
            { key: "boxes", label: exact ? words.flowLost : words.flowBoxes, numeric: true },
          ]}
          rows={STEPS.flatMap((step) => {
            const boxes = flow[step];
            return boxes === undefined ? [] : [{ step: words[step], boxes: whole(boxes) }];
          })}
        />
        {losses.length > 0 ? (
          <DataTable
            caption={words.flowLossesCaption}
            columns={[
              { key: "kind", label: words.flowReason },
              { key: "boxes", label: words.flowLost, numeric: true },
            ]}
            rows={losses.map(({ kind, boxes }) => ({
              kind: vocabularyMessages.event[kind as BoxEventKind],
              boxes: whole(boxes),
            }))}
          />
        ) : null}
      </div>
    </>
  );
}
