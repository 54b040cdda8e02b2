import { ButtonLink } from "@/lib/ui/components/button";
import { BoxCautions } from "@/lib/ui/components/cautions";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { commonMessages } from "@/lib/ui/messages/en/common";

const words = commonMessages.home;

export default function Home() {
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
