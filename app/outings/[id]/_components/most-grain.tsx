import type { OutingView } from "@/lib/services/growing/outing-view";
import { DataTable } from "@/lib/ui/components/data-table";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";

const words = setMessages.outing;

/** What to have in the house before the draw is seen, whatever it brings. */
export function MostGrain({ outing }: { outing: OutingView }) {
  return (
    <section className="mb-8 max-w-[44em]">
      <h2 className="mb-1">{words.mostTitle}</h2>
      <p className="mb-3 text-quiet">
        {outing.mostGrain ? words.mostLead : words.mostUnknown}{" "}
        {words.perBoxVolume(words.litres(outing.boxVolumeMl))}
      </p>
      {outing.mostGrain ? (
        <DataTable
          caption={words.mostTitle}
          columns={[
            { key: "grain", label: words.grain },
            { key: "most", label: words.atMost, numeric: true },
          ]}
          rows={outing.mostGrain.map(({ grain, dryGrainMassG }) => ({
            grain: vocabularyMessages.grain[grain],
            most: words.grams(dryGrainMassG),
          }))}
        />
      ) : null}
    </section>
  );
}
