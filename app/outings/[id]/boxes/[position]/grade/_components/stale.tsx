import { Button } from "@/lib/ui/components/button";
import { Notice } from "@/lib/ui/components/notice";
import { recordingMessages } from "@/lib/ui/messages/en/recording";

const words = recordingMessages.record;

interface Props {
  /** What stands now, in words; null where the box has no record (any more). */
  readonly standingWords: string | null;
  readonly onKeepMine: () => void;
  readonly onTakeStanding: () => void;
}

/** Somebody recorded this box since these answers were begun: nothing typed goes unless its author says so. */
export function Stale({ standingWords, onKeepMine, onTakeStanding }: Props) {
  return (
    <Notice kind="due">
      <p>{words.stale}</p>
      <p className="font-normal">{standingWords ? words.staleStands(standingWords) : null}</p>
      <p className="mt-2 flex flex-wrap gap-2.5">
        <Button type="button" onClick={onKeepMine}>
          {words.keepMine}
        </Button>
        <Button type="button" kind="quiet" onClick={onTakeStanding}>
          {words.takeStanding}
        </Button>
      </p>
    </Notice>
  );
}
