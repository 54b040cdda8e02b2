import type { Metadata } from "next";
import Link from "next/link";
import { requireActor } from "@/lib/auth/session";
import { mayMakeTrials } from "@/lib/services/lead/authorise";
import { type LedTrialRow, myTrials } from "@/lib/services/lead/read";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { dayWords } from "@/lib/ui/format";
import { leadMessages } from "@/lib/ui/messages/en/lead";

const words = leadMessages.list;

export const metadata: Metadata = { title: words.title };

export default async function LeadPage() {
  const actor = await requireActor("/lead");
  const trials = await reading((tx) => myTrials(tx, actor));
  const mayMake = mayMakeTrials(actor);
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      {trials.length > 0 ? (
        <TrialCards trials={trials} />
      ) : (
        <p className="mb-5">{mayMake ? words.none : words.noneAndMayNot}</p>
      )}
      {mayMake ? <ButtonLink href="/lead/trials/new">{words.make}</ButtonLink> : null}
    </>
  );
}

function TrialCards({ trials }: { trials: readonly LedTrialRow[] }) {
  const { columns } = words;
  return (
    <ul className="mb-6 max-w-[44em] border-t border-line">
      {trials.map(({ id, title, status, seatsTaken, seats, endsOn }) => (
        <li key={id} className="border-b border-line py-2.5">
          <Link href={`/lead/trials/${id}`} className="inline-flex min-h-[44px] items-center font-semibold">
            {title}
          </Link>
          <p>
            {leadMessages.status[status as keyof typeof leadMessages.status]}. {columns.seats}:{" "}
            {words.seats(seatsTaken, seats)}. {columns.endsOn}:{" "}
            <time dateTime={endsOn}>{dayWords(endsOn)}</time>
          </p>
        </li>
      ))}
    </ul>
  );
}
