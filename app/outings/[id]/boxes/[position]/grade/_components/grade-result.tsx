import type { ReactNode } from "react";
import type { Revision } from "@/lib/services/growing/box-record";
import type { PhotoView } from "@/lib/services/growing/photos";
import { ButtonLink } from "@/lib/ui/components/button";
import { Facts } from "@/lib/ui/components/facts";
import { Photo } from "@/lib/ui/components/photo";
import { pictureMessages } from "@/lib/ui/messages/en/pictures";
import { resultMessages } from "@/lib/ui/messages/en/record-result";
import { growthFacts } from "./growth-words";

const words = resultMessages;

interface Props {
  /** The record that stands. */
  readonly revision: Revision;
  /** What the box was cooked as; null for whoever should not learn it. */
  readonly recipeName: string | null;
  readonly photos: readonly PhotoView[];
  readonly setPath: string;
  readonly nextPosition: number | null;
  /** What else can be done with the box now. */
  readonly children?: ReactNode;
}

/** What the answers give, each with its reason, and only now the recipe; made by the server once the record stands. */
export function GradeResult({ revision, recipeName, photos, setPath, nextPosition, children }: Props) {
  return (
    <>
      <h2 className="mb-1">{words.summaryTitle}</h2>
      <Facts
        items={[
          ...growthFacts(revision.growth),
          ...(recipeName ? [{ label: words.recipeWas, value: recipeName }] : []),
        ]}
      />
      {photos.length > 0 ? (
        <ul className="mb-5 grid max-w-[44em] grid-cols-3 gap-2.5" aria-label={pictureMessages.list}>
          {photos.map(({ id, hiddenReason }, i) => (
            <li key={id}>
              <Photo url={`/photos/${id}`} alt={pictureMessages.alt(i + 1)} hiddenReason={hiddenReason} />
            </li>
          ))}
        </ul>
      ) : null}
      <p className="mb-4 flex flex-wrap gap-3">
        {nextPosition ? (
          <ButtonLink href={`${setPath}/boxes/${nextPosition}/grade`}>{words.nextBox}</ButtonLink>
        ) : null}
        <ButtonLink kind={nextPosition ? "quiet" : "main"} href={setPath}>
          {words.toSet}
        </ButtonLink>
        {children}
      </p>
    </>
  );
}
