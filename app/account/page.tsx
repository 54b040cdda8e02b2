import type { Metadata } from "next";
import Link from "next/link";
import type { ReactNode } from "react";
import { requireActor } from "@/lib/auth/session";
import { type LedAloneRow, leadsAlone } from "@/lib/services/accounts/leave";
import { ownSettings } from "@/lib/services/accounts/settings";
import { reading } from "@/lib/services/run";
import { Button } from "@/lib/ui/components/button";
import { Caution } from "@/lib/ui/components/caution";
import { Facts } from "@/lib/ui/components/facts";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { LeaveForm, LettersForm, NameForm, PasswordForm } from "./_components/account-forms";
import { endAllSessions, signOut } from "./actions";

const words = accountMessages.account;

export const metadata: Metadata = { title: words.title };

export default async function AccountPage() {
  const actor = await requireActor("/account");
  const own = await reading((tx) => ownSettings(tx, actor));
  const alone = await reading((tx) => leadsAlone(tx, actor));
  return (
    <>
      <PageHeading title={words.title} />
      <Facts items={[{ label: words.email, value: own.email }]} />
      <NameForm name={own.name} />
      <Section title={words.household} lead={words.householdLead}>
        <Facts
          items={[
            { label: words.householdCode, value: <span className="font-mono">{own.householdCode}</span> },
            { label: words.householdAdults, value: own.householdAdults },
          ]}
        />
      </Section>
      <div id="letters">
        <Section title={words.letters} lead={words.lettersLead}>
          <LettersForm byMail={own.lettersByMail} />
        </Section>
      </div>
      <Section title={words.sessions} lead={words.sessionsLead}>
        <div className="flex flex-wrap gap-3">
          <form action={signOut}>
            <Button kind="quiet">{words.signOut}</Button>
          </form>
          <form action={endAllSessions}>
            <Button kind="quiet">{words.signOutEverywhere}</Button>
          </form>
        </div>
      </Section>
      <Section title={words.password}>
        <PasswordForm />
      </Section>
      <Section title={words.data} lead={words.dataLead}>
        <a href="/account/data" download className="inline-flex min-h-[44px] items-center">
          {words.dataLink}
        </a>
      </Section>
      <Section title={words.leave}>
        <Caution>
          <p>{words.leaveGoes}</p>
          {actor.mayLead || actor.isAdmin ? <p>{words.leaveDrafts}</p> : null}
          <p>{words.leaveStays}</p>
        </Caution>
        <LedAlone trials={alone} />
        <LeaveForm />
      </Section>
    </>
  );
}

/** What keeps an account from going, each a way to where it is mended. */
function LedAlone({ trials }: { trials: readonly LedAloneRow[] }) {
  if (trials.length === 0) return null;
  return (
    <>
      <p className="max-w-[44em]">{words.leaveLeads}</p>
      <ul className="mb-4">
        {trials.map(({ id, title }) => (
          <li key={id}>
            <Link href={`/lead/trials/${id}/leads`} className="inline-flex min-h-[44px] items-center">
              {title}
            </Link>
          </li>
        ))}
      </ul>
    </>
  );
}

function Section({ title, lead, children }: { title: string; lead?: string; children: ReactNode }) {
  return (
    <section className="mt-9 border-t border-line pt-5">
      <h2 className="mb-2">{title}</h2>
      {lead ? <p className="mb-4 max-w-[38em] text-quiet">{lead}</p> : null}
      {children}
    </section>
  );
}
