import type { Metadata } from "next";
import Link from "next/link";
import { redirect } from "next/navigation";
import { safeNextPath } from "@/lib/auth/next-path";
import { currentActor } from "@/lib/auth/session";
import { demoRoles } from "@/lib/services/accounts/demo";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { DemoSignIns } from "./_components/demo-sign-ins";
import { SignInForm } from "./_components/sign-in-form";

const words = accountMessages.signIn;

export const metadata: Metadata = { title: words.title };

interface Props {
  searchParams: Promise<{ next?: string | string[]; left?: string }>;
}

export default async function SignInPage({ searchParams }: Props) {
  const { next: asked, left } = await searchParams;
  const next = safeNextPath(Array.isArray(asked) ? asked[0] : asked);
  if (await currentActor()) redirect(next);
  const roles = await demoRoles();
  return (
    <>
      <PageHeading title={words.title} />
      {left === undefined ? null : <Notice kind="ok">{accountMessages.account.left}</Notice>}
      <SignInForm next={next} />
      <ul className="mt-5">
        <li>
          <Link href="/forgot-password" className="inline-flex min-h-[44px] items-center">
            {words.forgot}
          </Link>
        </li>
        <li>
          <Link
            href={`/sign-up?next=${encodeURIComponent(next)}`}
            className="inline-flex min-h-[44px] items-center"
          >
            {words.noneYet}
          </Link>
        </li>
      </ul>
      {roles.length > 0 ? <DemoSignIns roles={roles} next={next} /> : null}
    </>
  );
}
