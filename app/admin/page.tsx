import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { currentActor } from "@/lib/auth/session";
import { env } from "@/lib/env";
import { type AccountRow, accountsPage } from "@/lib/services/accounts/admin";
import { reading } from "@/lib/services/run";
import { DataTable } from "@/lib/ui/components/data-table";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { momentWords } from "@/lib/ui/format";
import { adminMessages as words } from "@/lib/ui/messages/en/admin";
import { SwitchForm } from "./_components/switch-form";
import { changeLeading, changeSignIn } from "./actions";

/** Anybody else's page is the one that isn't there, and so is its title. */
export async function generateMetadata(): Promise<Metadata> {
  return (await currentActor())?.isAdmin ? { title: words.title } : {};
}

export default async function AdminPage({
  searchParams,
}: {
  searchParams: Promise<{ after?: string | string[] }>;
}) {
  const { after } = await searchParams;
  const actor = await currentActor();
  if (!actor) notFound();
  const page = await reading((tx) => accountsPage(tx, actor, typeof after === "string" ? after : undefined));
  if (!page.ok) notFound();
  const { rows, next } = page.value;
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      <DataTable
        caption={words.caption}
        columns={Object.entries(words.columns).map(([key, label]) => ({ key, label }))}
        rows={rows.map((account) => accountCells(account, account.id === actor.accountId))}
      />
      <p className="flex flex-wrap gap-5">
        {next ? <Link href={`/admin?after=${next}`}>{words.next}</Link> : null}
        {after ? <Link href="/admin">{words.first}</Link> : null}
        {env().GRAINLOT_MODE === "demo" ? <Link href="/admin/mails">{words.mails.title}</Link> : null}
      </p>
    </>
  );
}

function accountCells(account: AccountRow, isSelf: boolean) {
  const disabled = account.disabledAt !== null;
  const standing = [
    account.isAdmin ? words.admin : words.grower,
    ...(account.mayLead ? [words.mayLead] : []),
    ...(disabled ? [words.disabled] : []),
  ];
  return {
    name: account.name,
    since: momentWords(account.createdAt),
    standing: standing.join(", "),
    signIn: isSelf ? (
      words.you
    ) : (
      <SwitchForm
        action={changeSignIn}
        account={account}
        allow={disabled}
        label={disabled ? words.enable : words.disable}
      />
    ),
    leading: (
      <SwitchForm
        action={changeLeading}
        account={account}
        allow={!account.mayLead}
        label={account.mayLead ? words.revokeLead : words.grantLead}
      />
    ),
  };
}
