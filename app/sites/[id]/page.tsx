import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { type SiteView, siteView } from "@/lib/services/growing/sites";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { Facts } from "@/lib/ui/components/facts";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { dayWords } from "@/lib/ui/format";
import { placeMessages as words } from "@/lib/ui/messages/en/places";
import { isUuid } from "@/shared/schemas/id";
import { SiteFacts } from "../_components/site-facts";
import { traitFacts } from "../_components/trait-facts";

export const metadata: Metadata = { title: words.title };

interface Props {
  params: Promise<{ id: string }>;
}

export default async function SitePage({ params }: Props) {
  const { id } = await params;
  const actor = await requireActor(`/sites/${id}`);
  const site = isUuid(id) ? await reading((tx) => siteView(tx, actor, id)) : null;
  if (!site) notFound();
  return (
    <>
      <PageHeading title={site.name} lead={words.lead} />
      {site.standing === "said" ? null : (
        <Notice kind="info">
          <p>{words.permissionStanding[site.standing]}</p>
          <Link
            href={`/sites/${id}/edit#permission`}
            className="inline-flex min-h-[44px] items-center font-normal"
          >
            {words.permissionAsk}
          </Link>
        </Notice>
      )}
      <Facts items={permissionFact(site)} />
      <h2 className="mb-1">{words.climateTitle}</h2>
      <SiteFacts site={site} />
      <h2 className="mb-1">{words.likeTitle}</h2>
      <Facts items={traitFacts(site.traits)} />
      {site.note ? (
        <p className="mb-6 max-w-[38em] whitespace-pre-line" dir="auto">
          {site.note}
        </p>
      ) : null}
      <p className="flex flex-wrap gap-3">
        <ButtonLink href="/outings/new">{words.planHere}</ButtonLink>
        <ButtonLink kind="quiet" href={`/sites/${id}/edit`}>
          {words.changeThis}
        </ButtonLink>
      </p>
      <p className="mt-4">
        <Link href="/sites" className="inline-flex min-h-[44px] items-center">
          {words.toList}
        </Link>
      </p>
    </>
  );
}

function permissionFact({ permission }: SiteView) {
  if (!permission) return [];
  const value = words.permissionSaid(words.permission[permission.kind], dayWords(permission.on));
  return [{ label: words.permissionTitle, value }];
}
