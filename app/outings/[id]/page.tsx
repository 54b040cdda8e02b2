import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { JarLink } from "@/app/jars/_components/jar-link";
import { requireActor } from "@/lib/auth/session";
import { hasStoodOut } from "@/lib/services/growing/due";
import { helperLinkOf } from "@/lib/services/growing/helper-link";
import { type OutingView, outingView } from "@/lib/services/growing/outing-view";
import { type SetPhotos, setPhotos } from "@/lib/services/growing/photos";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { PauseNotice } from "@/lib/ui/components/pause-notice";
import { dayWords } from "@/lib/ui/format";
import { helperMessages } from "@/lib/ui/messages/en/helpers";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { weatherMessages } from "@/lib/ui/messages/en/weather";
import { isUuid } from "@/shared/schemas/id";
import { AsPlanned } from "./_components/as-planned";
import { BoxShortForm } from "./_components/box-short-form";
import { Boxes } from "./_components/boxes";
import { CookingSheet } from "./_components/cooking-sheet";
import { DrawPanel } from "./_components/draw-panel";
import { Fold } from "./_components/fold";
import { GiveUpForm } from "./_components/give-up-form";
import { HelperLink } from "./_components/helper-link";
import { MostGrain } from "./_components/most-grain";
import { MoveDayForm } from "./_components/move-day-form";
import { NowCard } from "./_components/now-card";
import { Proof } from "./_components/proof";
import { ReturnedSet } from "./_components/returned-set";
import { StepsLine } from "./_components/steps-line";
import { WhenToFetch } from "./_components/when-to-fetch";
import { WhereTheyStand } from "./_components/where-they-stand";

const words = setMessages.outing;

interface Props {
  params: Promise<{ id: string }>;
}

export const metadata: Metadata = { title: setMessages.outings.title };

export default async function OutingPage({ params }: Props) {
  const { id } = await params;
  const actor = await requireActor(`/outings/${id}`);
  const outing = isUuid(id) ? await reading((tx) => outingView(tx, actor, id)) : null;
  if (!outing) notFound();
  const photos = await reading((tx) => setPhotos(tx, actor, id));
  const helperLink = await reading((tx) => helperLinkOf(tx, actor, id, new Date()));
  const place = outing.siteName ?? setMessages.outings.placeGone;
  return (
    <>
      <PageHeading
        title={words.title(outing.code)}
        lead={words.lead(outing.boxes.length, place, dayWords(outing.day))}
      />
      {outing.status === "abandoned" ? <Notice kind="info">{words.givenUp}</Notice> : null}
      {outing.trial.status === "closed" ? <Notice kind="info">{words.closedNote}</Notice> : null}
      {outing.pause ? <PauseNotice pause={outing.pause} /> : null}
      <ReturnedSet outing={outing} />
      {outing.receipt ? (
        <Drawn
          outing={outing}
          receipt={outing.receipt}
          photos={photos}
          helpsUntil={helperLink?.expiresAt ?? null}
        />
      ) : (
        <Planned outing={outing} />
      )}
      {outing.status === "abandoned" || outing.boxes.some(({ grade }) => grade) ? null : (
        <GiveUpForm outingId={outing.id} />
      )}
    </>
  );
}

function Planned({ outing }: { outing: OutingView }) {
  if (outing.status === "abandoned") return null;
  const mayDraw = outing.trial.status === "open" && !outing.tooManyNotSetOut && !outing.pause;
  return (
    <>
      <MostGrain outing={outing} />
      {outing.stagedDays.length > 0 ? (
        <p className="mb-6 max-w-[44em]">{words.stagedDays(outing.stagedDays)}</p>
      ) : null}
      {outing.tooManyNotSetOut ? <Notice kind="info">{words.drawWaits}</Notice> : null}
      {mayDraw ? <DrawPanel outingId={outing.id} /> : null}
      <Fold title={words.planTitle}>
        <AsPlanned outing={outing} />
        <ButtonLink kind="quiet" href={`/outings/${outing.id}/edit`}>
          {words.edit}
        </ButtonLink>
      </Fold>
      <MoveDay outing={outing} />
    </>
  );
}

interface DrawnProps {
  readonly outing: OutingView;
  readonly receipt: NonNullable<OutingView["receipt"]>;
  readonly photos: SetPhotos;
  /** Until when a helper link holds. */
  readonly helpsUntil: Date | null;
}

/** The next step first, then the boxes; what is rarely wanted is folded away. */
function Drawn({ outing, receipt, photos, helpsUntil }: DrawnProps) {
  const { id, boxes, due } = outing;
  const leftOut = boxes.filter(({ events }) =>
    events.some(({ detail }) => detail?.kind === "not-cooked" && detail.reason === "box-short"),
  );
  const isOut = boxes.some(({ events }) => events.some(({ kind }) => kind === "set-out"));
  const hasBeenOut = boxes.some(({ grade, events }) => hasStoodOut({ graded: grade !== null, events }));
  const last = boxes.findLast((box) => !leftOut.includes(box));
  return (
    <>
      <StepsLine outing={outing} />
      {leftOut.length > 0 ? (
        <Notice kind="info">{words.leftOut(leftOut.map(({ code }) => code).join(", "))}</Notice>
      ) : null}
      <NowCard outing={outing} photos={photos} />
      <Boxes outing={outing} />
      <p className="mb-6 empty:hidden">
        <JarLink boxIds={boxes.filter(({ grade }) => grade).map((box) => box.id)} />
      </p>
      {due.kind === "cook" ? null : (
        <Fold title={words.cookTitle}>
          <CookingSheet outing={outing} />
        </Fold>
      )}
      {isOut ? (
        <Fold title={words.standingTitle}>
          <WhereTheyStand outing={outing} photos={photos.setOut} />
          <p className="mt-4">
            <ButtonLink kind="quiet" href={`/outings/${id}/weather`}>
              {weatherMessages.link}
            </ButtonLink>
          </p>
        </Fold>
      ) : null}
      {hasBeenOut ? null : (
        <>
          <Fold title={words.whenTitle}>
            <WhenToFetch outing={outing} />
          </Fold>
          <MoveDay outing={outing} />
          {last && outing.status === "drawn" ? (
            <Fold title={words.shortTitle}>
              <BoxShortForm outingId={id} lastCode={last.code} />
            </Fold>
          ) : null}
        </>
      )}
      <Fold title={words.papersTitle}>
        <p className="flex flex-wrap gap-2.5">
          <ButtonLink kind="quiet" href={`/outings/${id}/sheet`}>
            {words.sheet}
          </ButtonLink>
          <a href={`/outings/${id}/calendar`} download className="inline-flex min-h-[54px] items-center">
            {words.calendar}
          </a>
        </p>
      </Fold>
      {outing.status === "drawn" ? (
        <Fold title={helperMessages.title}>
          <HelperLink outingId={id} holdsUntil={helpsUntil?.toISOString().slice(0, 10) ?? null} />
        </Fold>
      ) : null}
      <Fold title={words.planTitle}>
        <AsPlanned outing={outing} />
      </Fold>
      <Fold title={words.proofTitle}>
        <Proof receipt={receipt} slug={outing.trial.slug} />
      </Fold>
    </>
  );
}

function MoveDay({ outing: { id, version, day, status, trial } }: { outing: OutingView }) {
  if (status === "abandoned" || trial.status !== "open") return null;
  return (
    <Fold title={words.moveTitle}>
      <MoveDayForm key={version} outingId={id} version={version} day={day} />
    </Fold>
  );
}
