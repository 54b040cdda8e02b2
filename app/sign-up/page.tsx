import type { Metadata } from "next";
import Link from "next/link";
import { redirect } from "next/navigation";
import { safeNextPath } from "@/lib/auth/next-path";
import { currentActor } from "@/lib/auth/session";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { SignUpForm } from "./_components/sign-up-form";

const words = accountMessages.signUp;

export const metadata: Metadata = { title: words.title };

export default async function SignUpPage({
  searchParams,
}: {
  searchParams: Promise<{ next?: string | string[] }>;
}) {
  const { next: asked } = await searchParams;
  const next = safeNextPath(Array.isArray(asked) ? asked[0] : asked);
  if (await currentActor()) redirect(next);
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      <SignUpForm next={next} />
      <p className="mt-5">
        <Link
          href={`/sign-in?next=${encodeURIComponent(next)}`}
          className="inline-flex min-h-[44px] items-center"
        >
          {words.haveOne}
        </Link>
      </p>
    </>
  );
}
