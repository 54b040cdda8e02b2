import { readTrialPage } from "@/lib/services/read-trials";
import { ButtonLink } from "@/lib/ui/components/button";
import { BoxCautions } from "@/lib/ui/components/cautions";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { commonMessages } from "@/lib/ui/messages/en/common";
import { TrialCard } from "./trials/_components/trial-card";

const words = commonMessages.home;

export default async function Home() {
  const { trials } = await readTrialPage("open");
  return (
    <>
      <PageHeading title={words.title} lead={words.lead.join(" ")} />
      <section className="mb-8 max-w-[42em]">
        <h2 className="mb-2">{words.how}</h2>
        <ol className="list-decimal space-y-1.5 pl-6">
          {words.steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
        <p className="mt-3">{words.place}</p>
      </section>
      <section className="mb-8 max-w-[46em]">
        <h2 className="mb-3">{words.openTrials}</h2>
        {trials.length === 0 ? <p className="text-quiet">{words.noOpenTrials}</p> : null}
        <ul className="space-y-4">
          {trials.map((trial) => (
            <TrialCard key={trial.id} trial={trial} />
          ))}
        </ul>
      </section>
      <BoxCautions />
      <p className="flex flex-wrap gap-3">
        <ButtonLink href="/trials">{words.allTrials}</ButtonLink>
        <ButtonLink href="/sign-up" kind="quiet">
          {words.signUp}
        </ButtonLink>
      </p>
    </>
  );
}
