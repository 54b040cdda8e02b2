"use client";

import { type ReactNode, useId, useState } from "react";
import type { PhotoView } from "@/lib/services/growing/photos";
import { type ShownPicture, usePictures } from "@/lib/ui/drafts/use-pictures";
import { pictureMessages } from "@/lib/ui/messages/en/pictures";
import type { SentProblem } from "@/lib/ui/send";
import { MOST_PHOTOS, PHOTO_TYPES, type PhotoPurpose } from "@/shared/vocabulary/photo";
import { FieldNotes } from "./field";
import { Photo } from "./photo";
import { ProblemNotice } from "./problem-notice";

const words = pictureMessages;

interface Props {
  readonly purpose: PhotoPurpose;
  /** The box (`opened`) or the set of boxes (`set-out`) the pictures are of. */
  readonly of: string;
  readonly label: string;
  readonly hint?: ReactNode;
  /** Those sent before. */
  readonly photos: readonly PhotoView[];
}

/** Takes or chooses pictures, which go by themselves, each as soon as there is signal. Never needed. */
export function PhotoField({ purpose, of, label, hint, photos }: Props) {
  const id = useId();
  const { pictures, add, remove } = usePictures(purpose, of, photos);
  const [problem, setProblem] = useState<SentProblem | null>(null);
  const isFull = pictures.length >= MOST_PHOTOS[purpose];
  return (
    <div className="mb-5 max-w-[44em]">
      <p className="mb-1 font-semibold" id={`${id}-label`}>
        {label}
      </p>
      <FieldNotes id={id} hint={hint} />
      {isFull ? (
        <p className="mb-2 text-quiet">{words.enough(MOST_PHOTOS[purpose])}</p>
      ) : (
        <label className="mb-2 inline-flex min-h-[54px] cursor-pointer items-center rounded-[5px] border-2 border-act px-5 font-bold text-act has-focus-visible:ring-3 has-focus-visible:ring-focus">
          <input
            type="file"
            id={id}
            className="sr-only"
            accept={PHOTO_TYPES.join(",")}
            multiple
            aria-describedby={hint ? `${id}-label ${id}-hint` : `${id}-label`}
            onChange={(event) => {
              const files = [...(event.target.files ?? [])];
              event.target.value = "";
              void add(files.slice(0, MOST_PHOTOS[purpose] - pictures.length));
            }}
          />
          {pictures.length === 0 ? words.take : words.takeAnother}
        </label>
      )}
      <ProblemNotice problem={problem} />
      <ul className="grid grid-cols-2 gap-2.5 sm:grid-cols-3" aria-label={words.list}>
        {pictures.map((picture, i) => (
          <Taken
            key={picture.id}
            picture={picture}
            number={i + 1}
            onRemove={async () => setProblem(await remove(picture))}
          />
        ))}
      </ul>
    </div>
  );
}

function Taken({
  picture,
  number,
  onRemove,
}: {
  picture: ShownPicture;
  number: number;
  onRemove: () => Promise<void>;
}) {
  const { url, state, problem, hiddenReason } = picture;
  return (
    <li>
      <Photo url={url} alt={words.alt(number)} hiddenReason={hiddenReason} />
      <p role="status" className={state === "refused" ? "text-due" : "text-quiet"}>
        {state === "refused" && problem ? `${problem.title} ${problem.detail}` : words.state[state]}
      </p>
      <button
        type="button"
        className="min-h-[44px] text-act underline underline-offset-[0.15em]"
        aria-label={words.removeLabel(number)}
        onClick={() => window.confirm(words.removeSure) && void onRemove()}
      >
        {words.remove}
      </button>
    </li>
  );
}
