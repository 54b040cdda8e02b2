import type { Metadata } from "next";
import { resetLinkHolds } from "@/lib/services/accounts/reset";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { ResetForm } from "./_components/reset-form";

const words = accountMessages.reset;

// The address holds the link's secret: it is passed on to no other page.
export const metadata: Metadata = { title: words.title, referrer: "no-referrer" };

export default async function ResetPasswordPage({
  searchParams,
}: {
  searchParams: Promise<{ token?: string | string[] }>;
}) {
  const { token } = await searchParams;
  const holds = typeof token === "string" && (await reading((tx) => resetLinkHolds(tx, token, new Date())));
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      {holds ? (
        <ResetForm token={token} />
      ) : (
        <>
          <Notice kind="due">{accountMessages.outcomes.LINK_NO_LONGER_HOLDS}</Notice>
          <ButtonLink href="/forgot-password">{words.again}</ButtonLink>
        </>
      )}
    </>
  );
}
