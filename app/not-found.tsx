import type { Metadata } from "next";
import { ButtonLink } from "@/lib/ui/components/button";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { commonMessages } from "@/lib/ui/messages/en/common";

const words = commonMessages.notFound;

export const metadata: Metadata = { title: words.title };

export default function NotFound() {
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      <ButtonLink href="/">{words.home}</ButtonLink>
    </>
  );
}
