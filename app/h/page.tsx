import type { Metadata } from "next";
import { currentHelper } from "@/lib/auth/helper";
import { currentActor } from "@/lib/auth/session";
import { type HelperView, helperView } from "@/lib/services/growing/helper-view";
import { reading } from "@/lib/services/run";
import { BoxCautions } from "@/lib/ui/components/cautions";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { PauseNotice } from "@/lib/ui/components/pause-notice";
import { helperMessages } from "@/lib/ui/messages/en/helpers";
import { HelperBoxes } from "./_components/helper-boxes";
import { HelperNow } from "./_components/helper-now";
import { StopHelping } from "./_components/stop-helping";

const words = helperMessages.page;

export const metadata: Metadata = { title: words.metaTitle, robots: { index: false } };

/** The one page of a helper; `ended`: the link just opened holds no more, whatever an earlier one does. */
export default async function HelperPage({ searchParams }: { searchParams: Promise<{ ended?: string }> }) {
  const { ended } = await searchParams;
  const helper = ended === undefined ? await currentHelper() : null;
  const set = helper && (await reading((tx) => helperView(tx, helper)));
  if (!set) return <PageHeading title={words.ended} lead={words.endedLead} />;
  return <Helping set={set} isSignedIn={(await currentActor()) !== null} />;
}

function Helping({ set, isSignedIn }: { set: HelperView; isSignedIn: boolean }) {
  return (
    <>
      <PageHeading title={words.title(set.code)} lead={words.lead} />
      {set.pause ? <PauseNotice pause={set.pause} /> : null}
      {set.isGivenUp ? <Notice kind="info">{words.givenUp}</Notice> : <HelperNow set={set} />}
      <HelperBoxes set={set} />
      <BoxCautions />
      <StopHelping keepDrafts={isSignedIn} />
    </>
  );
}
