import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { type OutingView, outingView } from "@/lib/services/growing/outing-view";
import { reading } from "@/lib/services/run";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { dayWords } from "@/lib/ui/format";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { isUuid } from "@/shared/schemas/id";
import { BoxCard } from "./_components/box-card";
import { CookingSheet } from "./_components/cooking-sheet";
import { DrawPanel } from "./_components/draw-panel";
import { GiveUpForm } from "./_components/give-up-form";
import { MostGrain } from "./_components/most-grain";
import { Proof } from "./_components/proof";
import { ReturnedSet } from "./_components/returned-set";
import { TellForm } from "./_components/tell-form";
import { WhenToFetch } from "./_components/when-to-fetch";

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
  const place = outing.siteName ?? setMessages.outings.placeGone;
  return (
    <>
      <PageHeading
        title={words.title(outing.code)}
        lead={words.lead(outing.boxes.length, place, dayWords(outing.day))}
      />
      {outing.status === "abandoned" ? <Notice kind="info">{words.givenUp}</Notice> : null}
      {outing.trial.status === "closed" ? <Notice kind="info">{words.closedNote}</Notice> : null}
      {outing.receipt ? <Drawn outing={outing} receipt={outing.receipt} /> : <Planned outing={outing} />}
      {outing.status === "abandoned" || outing.boxes.every(({ grade }) => grade) ? null : (
        <GiveUpForm outingId={outing.id} />
      )}
    </>
  );
}

function Planned({ outing }: { outing: OutingView }) {
  if (outing.status === "abandoned") return null;
  return (
    <>
      <ReturnedSet outing={outing} />
      <MostGrain outing={outing} />
      {outing.stagedDays.length > 0 ? (
        <p className="mb-6 max-w-[44em]">{words.stagedDays(outing.stagedDays)}</p>
      ) : null}
      {outing.trial.status === "open" ? <DrawPanel outingId={outing.id} /> : null}
    </>
  );
}

function Drawn({ outing, receipt }: { outing: OutingView; receipt: NonNullable<OutingView["receipt"]> }) {
  return (
    <>
      <ReturnedSet outing={outing} />
      <CookingSheet outing={outing} />
      <section className="mb-8">
        <h2 className="mb-2">{words.labelsTitle}</h2>
        <WhenToFetch outing={outing} />
        <TellForm
          title={setMessages.box.allTitle}
          lead={setMessages.box.allLead}
          boxIds={outing.boxes.map((box) => box.id)}
        />
        {outing.boxes.map((box) => (
          <BoxCard key={box.id} outingId={outing.id} box={box} amounts={amountsOf(outing, box)} />
        ))}
      </section>
      <Proof receipt={receipt} slug={outing.trial.slug} />
    </>
  );
}

function amountsOf(outing: OutingView, box: OutingView["boxes"][number]) {
  return box.recipe ? outing.amounts.get(box.recipe.variantId)?.perBox : undefined;
}
