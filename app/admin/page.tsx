import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { currentActor } from "@/lib/auth/session";
import { accountsPage } from "@/lib/services/accounts/admin";
import { reading } from "@/lib/services/run";
import { Button } from "@/lib/ui/components/button";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { TextField } from "@/lib/ui/components/text-field";
import { adminMessages as words } from "@/lib/ui/messages/en/admin";
import { healthMessages } from "@/lib/ui/messages/en/health";
import { AccountCard } from "./_components/account-card";

/** Anybody else's page is the one that isn't there, and so is its title. */
export async function generateMetadata(): Promise<Metadata> {
  return (await currentActor())?.isAdmin ? { title: words.title } : {};
}

export default async function AdminPage({
  searchParams,
}: {
  searchParams: Promise<{ after?: string | string[]; search?: string | string[] }>;
}) {
  const asked = await searchParams;
  const after = typeof asked.after === "string" ? asked.after : undefined;
  const search = typeof asked.search === "string" ? asked.search : "";
  const actor = await currentActor();
  if (!actor) notFound();
  const page = await reading((tx) => accountsPage(tx, actor, after, search));
  if (!page.ok) notFound();
  const { rows, next } = page.value;
  const query = (part: Record<string, string>) =>
    `/admin?${new URLSearchParams({ ...(search && { search }), ...part })}`;
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      <p className="mb-5 flex flex-wrap gap-5">
        <Link href="/admin/mails">{words.mails.title}</Link>
        <Link href="/health">{healthMessages.title}</Link>
      </p>
      <search className="mb-6 block">
        <form action="/admin">
          <TextField
            name="search"
            type="search"
            label={words.search.label}
            hint={words.search.hint}
            defaultValue={search}
            maxLength={200}
          />
          <Button kind="quiet">{words.search.submit}</Button>
        </form>
      </search>
      {rows.length === 0 ? <p>{words.search.none}</p> : null}
      <ul className="mb-6 grid gap-4 lg:grid-cols-2">
        {rows.map((account) => (
          <AccountCard key={account.id} account={account} isSelf={account.id === actor.accountId} />
        ))}
      </ul>
      <p className="flex flex-wrap gap-5">
        {next ? <Link href={query({ after: next })}>{words.next}</Link> : null}
        {after ? <Link href={query({})}>{words.first}</Link> : null}
        {search ? <Link href="/admin">{words.search.all}</Link> : null}
      </p>
    </>
  );
}
