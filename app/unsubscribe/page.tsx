import type { Metadata } from "next";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { unsubscribeMessages as words } from "@/lib/ui/messages/en/unsubscribe";
import { StopForm } from "./_components/stop-form";

export const metadata: Metadata = { title: words.title, robots: { index: false } };

interface Props {
  searchParams: Promise<{ token?: string | string[] }>;
}

export default async function UnsubscribePage({ searchParams }: Props) {
  const { token } = await searchParams;
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      <StopForm token={typeof token === "string" ? token : ""} />
    </>
  );
}
