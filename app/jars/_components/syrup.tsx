import type { SyrupEstimate } from "@/lib/engine/jar/water-activity";
import { decimal } from "@/lib/ui/format";
import { jarMessages as words } from "@/lib/ui/messages/en/jars";

/** How dry the syrup is and what that means for keeping it. */
export function Syrup({ syrup }: { syrup: SyrupEstimate }) {
  // Upwards, as it is an upper bound.
  const activity = decimal(Math.ceil(syrup.waterActivityAtMost * 100) / 100, 2);
  return (
    <div className="mb-5 max-w-[44em]">
      <p className="font-bold">{words.activityValue(activity)}</p>
      <p>{syrup.isSaturated ? words.saturatedMeans : words.activityMeans}</p>
      <p className="text-[0.9375rem] text-quiet">{words.activityBasis}</p>
    </div>
  );
}
