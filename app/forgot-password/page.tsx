import type { Metadata } from "next";
import Link from "next/link";
import { env } from "@/lib/env";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { AskForm } from "./_components/ask-form";

const words = accountMessages.forgot;

export const metadata: Metadata = { title: words.title };

export default function ForgotPasswordPage() {
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      {env().GRAINLOT_MODE === "demo" ? <p className="mb-5 text-quiet">{words.demoLead}</p> : null}
      <AskForm />
      <p className="mt-5">
        <Link href="/sign-in" className="inline-flex min-h-[44px] items-center">
          {words.back}
        </Link>
      </p>
    </>
  );
}
