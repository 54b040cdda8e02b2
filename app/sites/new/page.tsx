import type { Metadata } from "next";
import { requireActor } from "@/lib/auth/session";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { placeMessages } from "@/lib/ui/messages/en/places";
import { SiteForm } from "../_components/site-form";

const words = placeMessages;

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
