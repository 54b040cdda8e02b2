import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { siteView } from "@/lib/services/growing/sites";
import { reading } from "@/lib/services/run";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { placeMessages as words } from "@/lib/ui/messages/en/places";
import { isUuid } from "@/shared/schemas/id";
import { SiteForm } from "../../_components/site-form";

export const metadata: Metadata = { title: words.changeThis };

interface Props {
  params: Promise<{ id: string }>;
}

export default async function EditSitePage({ params }: Props) {
  const { id } = await params;
  const actor = await requireActor(`/sites/${id}/edit`);
  const site = isUuid(id) ? await reading((tx) => siteView(tx, actor, id)) : null;
  if (!site) notFound();
  return (
    <>
      <PageHeading title={words.changeTitle(site.name)} />
      <SiteForm site={site} />
    </>
  );
}
