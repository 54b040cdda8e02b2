import type { Metadata } from "next";
import { requireActor } from "@/lib/auth/session";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { SiteForm } from "./_components/site-form";

const words = growingMessages.sites;

export const metadata: Metadata = { title: words.newTitle };

export default async function NewSitePage() {
  await requireActor("/sites/new");
  return (
    <>
      <PageHeading title={words.newTitle} lead={words.newLead} />
      <SiteForm />
    </>
  );
}
