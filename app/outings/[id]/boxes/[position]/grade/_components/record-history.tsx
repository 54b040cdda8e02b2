import type { Revision } from "@/lib/services/growing/box-record";
import { Facts } from "@/lib/ui/components/facts";
import { placeMomentWords } from "@/lib/ui/format";
import { openedMessages } from "@/lib/ui/messages/en/opened-box";
import { resultMessages } from "@/lib/ui/messages/en/record-result";
import { answersOf } from "./answers";
import { growthFacts } from "./growth-words";

const words = resultMessages;

/** Every version of a box's record, the newest first, each with its day; none is ever written over. */
export function RecordHistory({ revisions }: { revisions: readonly Revision[] }) {
  if (revisions.length === 0) return null;
  return (
    <section className="mt-8 border-t border-line pt-4">
      <h2 className="mb-2">{words.historyTitle}</h2>
      {revisions.map((revision, i) => (
        <details key={revision.revision} className="max-w-[44em] border-b border-line">
          <summary className="min-h-[44px] cursor-pointer py-2.5">
            <span className="font-semibold">{words.version(revision.revision)}</span>,{" "}
            {placeMomentWords(revision.recordedAt, revision.offsetMinutes)}
            {i === 0 ? ` (${words.stands})` : ""}
          </summary>
          <Facts items={[...growthFacts(revision.growth), ...changesOf(revision, revisions[i + 1])]} />
        </details>
      ))}
    </section>
  );
}

/** All answers of a first record; of a correction, those that it changed. */
function changesOf({ measures, note }: Revision, before: Revision | undefined) {
  const earlier = before && answersOf(before.measures);
  const answers = answersOf(measures).flatMap(({ label, value }, i) => {
    if (!earlier) return [{ label, value }];
    const was = earlier[i]!.value;
    return was === value ? [] : [{ label, value: words.changed(was, value) }];
  });
  if (!note) return answers;
  const text = note.hiddenReason === null ? note.text : words.noteHidden(note.text, note.hiddenReason);
  return [...answers, { label: openedMessages.note, value: text }];
}
