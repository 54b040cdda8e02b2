import type { OutingView } from "@/lib/services/growing/outing-view";
import type { PhotoView } from "@/lib/services/growing/photos";
import { Facts } from "@/lib/ui/components/facts";
import { PhotoField } from "@/lib/ui/components/photo-field";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { PinPanel } from "./pin-panel";

const words = setMessages.outing;

/** How the boxes of a set that is out stand, pictures of it, and the spot for its owner's eyes. */
export function WhereTheyStand({
  outing: { id, standing, pin },
  photos,
}: {
  outing: OutingView;
  photos: readonly PhotoView[];
}) {
  const measured = (cm: number | null) => (cm === null ? words.notMeasured : words.cm(String(cm)));
  return (
    <>
      <Facts
        items={[
          { label: words.spacing, value: measured(standing.spacingCm) },
          { label: words.sunk, value: measured(standing.sunkCm) },
        ]}
      />
      <PhotoField purpose="set-out" of={id} label={words.pictures} photos={photos} />
      <PinPanel outingId={id} pin={pin} />
    </>
  );
}
