import type { Metadata } from "next";
import { requireActor } from "@/lib/auth/session";
import { siteViews } from "@/lib/services/growing/sites";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { placeMessages } from "@/lib/ui/messages/en/places";
import { SiteFacts } from "./_components/site-facts";

const words = placeMessages;

export const metadata: Metadata = { title: words.title };

export default async function SitesPage() {
  const actor = await requireActor("/sites");
  const sites = await reading((tx) => siteViews(tx, actor));
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      {sites.length === 0 ? <p className="mb-6">{words.none}</p> : null}
      {sites.map((site) => (
        <section key={site.id} className="mb-8">
          <h2 className="mb-1">{site.name}</h2>
          <SiteFacts site={site} />
        </section>
      ))}
      <ButtonLink href="/sites/new">{words.add}</ButtonLink>
    </>
  );
}
