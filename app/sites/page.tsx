import type { Metadata } from "next";
import Link from "next/link";
import { requireActor } from "@/lib/auth/session";
import { siteViews } from "@/lib/services/growing/sites";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { placeMessages as words } from "@/lib/ui/messages/en/places";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";

export const metadata: Metadata = { title: words.title };

export default async function SitesPage() {
  const actor = await requireActor("/sites");
  const sites = await reading((tx) => siteViews(tx, actor));
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      {sites.length === 0 ? <p className="mb-6">{words.none}</p> : null}
      <ul className="mb-6 max-w-[44em]">
        {sites.map((site) => (
          <li key={site.id} className="border-b border-line py-3 first:border-t-2 first:border-t-ink">
            <Link
              href={`/sites/${site.id}`}
              className="inline-flex min-h-[44px] items-center text-[1.1875rem] font-bold"
            >
              {site.name}
            </Link>
            <p className="text-quiet">{vocabularyMessages.koppen[site.koppenClass]}</p>
            {site.standing === "said" ? null : (
              <p className="font-semibold text-due">{words.permissionStanding[site.standing]}</p>
            )}
          </li>
        ))}
      </ul>
      <ButtonLink href="/sites/new">{words.add}</ButtonLink>
    </>
  );
}
