import { ButtonLink } from "@/lib/ui/components/button";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import type { NamedBox } from "./box-picks";
import { OpenedPanel } from "./opened-panel";

const words = stepMessages.record;

interface Props {
  readonly outingId: string;
  /** The page of the set, under which each box is recorded. */
  readonly setPath: string;
  readonly boxes: readonly (NamedBox & { readonly isOpened: boolean })[];
}

/** Boxes that wait to be opened and recorded: the first with one big button, the others after it. */
export function RecordPanel({ outingId, setPath, boxes: [first, ...rest] }: Props) {
  if (!first) return null;
  const unopened = [first, ...rest].filter(({ isOpened }) => !isOpened);
  const href = (position: number) => `${setPath}/boxes/${position}/grade`;
  return (
    <>
      <ButtonLink href={href(first.position)} className="w-full">
        {words.button(first.code)}
      </ButtonLink>
      {rest.length > 0 ? (
        <p className="mt-3 flex flex-wrap items-center gap-2.5">
          <span>{words.others}</span>
          {rest.map(({ position, code }) => (
            <ButtonLink key={position} kind="quiet" href={href(position)}>
              {code}
            </ButtonLink>
          ))}
        </p>
      ) : null}
      {unopened.length > 0 ? (
        <OpenedPanel
          outingId={outingId}
          boxes={unopened.map(({ id, position, code }) => ({ id, position, code }))}
        />
      ) : null}
    </>
  );
}
