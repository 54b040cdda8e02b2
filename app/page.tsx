import { redirect } from "next/navigation";
import { currentActor } from "@/lib/auth/session";
import { readTrialPage } from "@/lib/services/read-trials";
import { ButtonLink } from "@/lib/ui/components/button";
import { BoxCautions } from "@/lib/ui/components/cautions";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { commonMessages } from "@/lib/ui/messages/en/common";
import { WoodPicture } from "./_components/wood-picture";
import { TrialCard } from "./trials/_components/trial-card";

const words = commonMessages.home;

/** For whoever comes by; somebody signed in starts from their own things. */
export default async function Home() {
  if (await currentActor()) redirect("/my-things");
  const { trials } = await readTrialPage("open");
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      <WoodPicture />
      <ol className="mb-6 max-w-[42em] list-decimal space-y-1.5 pl-8">
        {words.sentences.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ol>
      <p className="mb-9 flex flex-wrap gap-3">
        <ButtonLink href="/sign-up">{words.signUp}</ButtonLink>
        <ButtonLink href="/join" kind="quiet">
          {words.withCode}
        </ButtonLink>
      </p>
      <section className="mb-8 max-w-[46em]">
        <h2 className="mb-3">{words.openTrials}</h2>
        {trials.length === 0 ? <p className="text-quiet">{words.noOpenTrials}</p> : null}
        <ul className="mb-3 space-y-4">
          {trials.map((trial) => (
            <TrialCard key={trial.id} trial={trial} />
          ))}
        </ul>
        <ButtonLink href="/trials" kind="quiet">
          {words.allTrials}
        </ButtonLink>
      </section>
      <BoxCautions />
    </>
  );
}
