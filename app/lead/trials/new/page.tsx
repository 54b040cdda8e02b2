import type { Metadata } from "next";
import { requireActor } from "@/lib/auth/session";
import { mayMakeTrials } from "@/lib/services/lead/authorise";
import { regionsToChoose } from "@/lib/services/lead/read";
import { reading } from "@/lib/services/run";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { DraftForm } from "../_components/draft-form";
import { makeTrial } from "./actions";

const words = leadMessages.make;

export const metadata: Metadata = { title: words.title };

export default async function NewTrialPage() {
  const actor = await requireActor("/lead/trials/new");
  const regions = await reading(regionsToChoose);
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      {mayMakeTrials(actor) ? (
        <DraftForm action={makeTrial} submit={words.submit} regions={regions} />
      ) : (
        <Notice kind="info">{words.mayNot}</Notice>
      )}
    </>
  );
}
