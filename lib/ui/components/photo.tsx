import { pictureMessages } from "@/lib/ui/messages/en/pictures";

interface Props {
  readonly url: string;
  readonly alt: string;
  /** Why a lead hid it from everyone but its owner. */
  readonly hiddenReason: string | null;
}

/** One picture, cut to a square that stands before it has come. */
export function Photo({ url, alt, hiddenReason }: Props) {
  return (
    <figure>
      {/* biome-ignore lint/performance/noImgElement: private pictures, never to be kept or resized on the way */}
      <img
        src={url}
        alt={alt}
        loading="lazy"
        decoding="async"
        className="aspect-square w-full rounded-[5px] border border-line bg-panel object-cover"
      />
      {hiddenReason === null ? null : (
        <figcaption className="text-due">{pictureMessages.hidden(hiddenReason)}</figcaption>
      )}
    </figure>
  );
}
