import { isToCome } from "@/app/outings/_components/is-to-come";
import type { OutingView } from "@/lib/services/growing/outing-view";
import type { SetPhotos } from "@/lib/services/growing/photos";
import { stepMessages as words } from "@/lib/ui/messages/en/set-steps";
import { CookPanel } from "./cook-panel";
import { CookingSheet } from "./cooking-sheet";
import { FetchPanel } from "./fetch-panel";
import { grainsOf } from "./grains-of";
import { headOf } from "./head-of";
import { RecordPanel } from "./record-panel";
import { SetOutPanel } from "./set-out-panel";
import { SpentDrafts } from "./spent-drafts";
import { StepCard } from "./step-card";

interface Props {
  readonly outing: OutingView;
  readonly photos: SetPhotos;
}

/** The one thing a drawn set waits for, with one big button; boxes that wait for something else are named under it. */
export function NowCard({ outing, photos }: Props) {
  const { due } = outing;
  if (due.kind === "draw" || due.kind === "given-up") return null;
  if (due.kind === "done") return <StepCard title={words.done.title} lead={words.done.lead} />;
  const waiting = outing.boxes.filter(({ position }) => due.positions.includes(position));
  const boxes = waiting.map(({ id, position, code }) => ({ id, position, code }));
  return (
    <StepCard {...headOf(outing)}>
      {due.kind === "cook" ? (
        <>
          <CookingSheet outing={outing} />
          <CookPanel key="cook" outingId={outing.id} boxes={boxes} grains={grainsOf(outing)} />
        </>
      ) : null}
      {due.kind === "set-out" ? (
        <SetOutPanel
          key="set-out"
          outingId={outing.id}
          boxes={boxes}
          minSpacingCm={outing.limits?.minSpacingCm ?? null}
          photos={photos.setOut}
        />
      ) : null}
      {due.kind === "fetch" || due.kind === "fetch-on" ? (
        <FetchPanel
          key="fetch"
          outingId={outing.id}
          boxes={boxes}
          isDue={!isToCome(due.kind === "fetch" ? due.earliest : due.day)}
        />
      ) : null}
      {due.kind === "record" ? (
        <RecordPanel
          outingId={outing.id}
          setPath={`/outings/${outing.id}`}
          boxes={waiting.map(({ id, position, code, events }) => ({
            ...{ id, position, code },
            isOpened: events.some(({ kind }) => kind === "opened"),
          }))}
        />
      ) : null}
      <Others outing={outing} />
      <SpentDrafts names={spentDrafts(outing)} />
    </StepCard>
  );
}

/** The drafts of steps (`useReport`) that no box waits for. */
function spentDrafts({ id, boxes }: OutingView): string[] {
  return (["cook", "set-out", "fetch"] as const)
    .filter((step) => boxes.every((box) => box.step !== step))
    .map((step) => `set/${id}/${step}`);
}

/** Boxes that wait for another step than the one of the card. */
function Others({ outing: { boxes, due } }: { outing: OutingView }) {
  const at = (step: string) => boxes.filter((box) => box.step === step).map(({ code }) => code);
  const isNow = (step: string) => due.kind.startsWith(step);
  const out = isNow("fetch") ? [] : at("fetch");
  return (
    <>
      {out.length > 0 ? <p className="mt-3">{words.alsoOut(words.codes(out))}</p> : null}
      {(["set-out", "cook"] as const).map((step) => {
        const codes = isNow(step) ? [] : at(step);
        return codes.length > 0 ? (
          <p key={step} className="mt-3">
            {words.alsoWaiting[step](words.codes(codes))}
          </p>
        ) : null;
      })}
    </>
  );
}
