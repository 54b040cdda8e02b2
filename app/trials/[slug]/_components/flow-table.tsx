import type { PublicBoxFlow } from "@/lib/services/read-trials";
import { DataTable } from "@/lib/ui/components/data-table";
import { whole } from "@/lib/ui/format";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";

const STEPS = ["drawn", "setOut", "opened", "recorded", "lost"] as const;

/** Boxes from the draw to the record, without their recipes. */
export function FlowTable({ flow }: { flow: PublicBoxFlow | null }) {
  if (!flow) return <p className="text-quiet">{words.flowHidden}</p>;
  return (
    <>
      <p className="mb-2 text-quiet">{words.flowLead}</p>
      <div className="max-w-[26em]">
        <DataTable
          caption={words.flowCaption}
          columns={[
            { key: "step", label: words.flowStep },
            { key: "boxes", label: words.flowBoxes, numeric: true },
          ]}
          rows={STEPS.map((step) => ({ step: words[step], boxes: whole(flow[step]) }))}
        />
      </div>
    </>
  );
}
