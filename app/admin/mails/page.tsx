import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { currentActor } from "@/lib/auth/session";
import { env } from "@/lib/env";
import { mailsPage } from "@/lib/services/accounts/admin";
import { reading } from "@/lib/services/run";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { momentWords } from "@/lib/ui/format";
import { adminMessages } from "@/lib/ui/messages/en/admin";
import { TestForm } from "../_components/test-form";

const words = adminMessages.mails;

/** Anybody else's page is the one that isn't there, and so is its title. */
export async function generateMetadata(): Promise<Metadata> {
  return (await currentActor())?.isAdmin ? { title: words.title } : {};
}

export default async function MailsPage({
  searchParams,
}: {
  searchParams: Promise<{ before?: string | string[] }>;
}) {
  const { before } = await searchParams;
  const actor = await currentActor();
  if (!actor) notFound();
  const page = await reading((tx) => mailsPage(tx, actor, typeof before === "string" ? before : undefined));
  if (!page.ok) notFound();
  const { rows, next } = page.value;
  return (
    <>
      <PageHeading title={words.title} lead={env().GRAINLOT_MODE === "demo" ? words.demoLead : words.lead} />
      <TestForm />
      {rows.length === 0 ? <p>{words.none}</p> : null}
      {rows.map((mail) => (
        <article key={mail.id} className="mb-6 max-w-[44em] border-t border-line pt-4">
          <h2>{mail.subject}</h2>
          <p className="text-quiet">
            {[words.to(mail.account?.name ?? ""), momentWords(mail.createdAt), words.states[mail.state]].join(
              " · ",
            )}
          </p>
          {mail.attempts > 0 ? <p className="text-quiet">{words.attempts(mail.attempts)}</p> : null}
          {mail.failedStage && mail.failure ? (
            <p className="text-due">{words.failedAt(words.stages[mail.failedStage], mail.failure)}</p>
          ) : null}
          {mail.body === null ? null : <p className="whitespace-pre-line break-words">{mail.body}</p>}
        </article>
      ))}
      <p className="flex flex-wrap gap-5">
        {next ? <Link href={`/admin/mails?before=${next}`}>{words.next}</Link> : null}
        {before ? <Link href="/admin/mails">{words.first}</Link> : null}
        <Link href="/admin">{adminMessages.title}</Link>
      </p>
    </>
  );
}
