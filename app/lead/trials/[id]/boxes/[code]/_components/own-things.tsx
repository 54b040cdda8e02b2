import type { LeadBox } from "@/lib/services/lead/corrections";
import { Photo } from "@/lib/ui/components/photo";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { HideForm, ShowForm } from "./hide-forms";

const words = deskMessages.box;

interface Props {
  readonly trialId: string;
  readonly box: LeadBox;
}

/** What the grower wrote about the box, each to be hidden or shown. */
export function OwnWords({ trialId, box }: Props) {
  if (box.words.length === 0) return <p>{words.noWords}</p>;
  return (
    <ul>
      {box.words.map(({ id, text, hiddenReason }) => (
        <li key={id} className="border-b border-line py-2">
          <p dir="auto" className="whitespace-pre-line">
            {text}
          </p>
          <Hiding thing={{ trialId, code: box.code, kind: "words", id }} hiddenReason={hiddenReason} />
        </li>
      ))}
    </ul>
  );
}

/** Pictures of the box and of its set; a hidden one is served to its author only. */
export function Pictures({ trialId, box }: Props) {
  if (box.pictures.length === 0) return <p>{words.noPictures}</p>;
  return (
    <ul className="grid gap-4 sm:grid-cols-2">
      {box.pictures.map(({ id, ofSet, hiddenReason }, i) => {
        const alt = ofSet ? words.setPicture(i + 1) : words.picture(i + 1);
        return (
          <li key={id}>
            {hiddenReason === null ? (
              <Photo url={`/photos/${id}`} alt={alt} hiddenReason={null} />
            ) : (
              <p>{alt}</p>
            )}
            <Hiding thing={{ trialId, code: box.code, kind: "picture", id }} hiddenReason={hiddenReason} />
          </li>
        );
      })}
    </ul>
  );
}

function Hiding({
  thing,
  hiddenReason,
}: {
  thing: Parameters<typeof HideForm>[0];
  hiddenReason: string | null;
}) {
  if (hiddenReason === null) return <HideForm {...thing} />;
  return (
    <>
      <p dir="auto" className="text-due">
        {words.hidden(hiddenReason)}
      </p>
      <ShowForm {...thing} />
    </>
  );
}
