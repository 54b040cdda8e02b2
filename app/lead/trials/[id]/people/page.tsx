import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { type PeoplePage, type Person, peoplePage } from "@/lib/services/lead/desk";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { dayWords } from "@/lib/ui/format";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { PEOPLE_GROUPS, type PeopleGroup } from "@/shared/vocabulary/desk";
import { DeskPage } from "../_components/desk-page";
import { pageNumber } from "../_components/page-number";
import { PageTurner } from "../_components/page-turner";

const words = deskMessages.people;

export const metadata: Metadata = { title: words.title };

interface Props {
  params: Promise<{ id: string }>;
  searchParams: Promise<{ group?: string; page?: string }>;
}

export default async function PeopleOfTrialPage({ params, searchParams }: Props) {
  const [{ id }, asked] = [await params, await searchParams];
  const group = PEOPLE_GROUPS.find((each) => each === asked.group) ?? null;
  const actor = await requireActor(`/lead/trials/${id}/people`);
  const request = { trialId: id, group, page: pageNumber(asked.page) };
  const found = await reading((tx) => peoplePage(tx, actor, request, new Date()));
  if (!found.ok) notFound();
  const { trial, people, all, page, pages } = found.value;
  return (
    <DeskPage trial={trial} title={words.title} lead={words.lead}>
      <GroupLinks trialId={trial.id} group={group} />
      {group ? <p className="text-quiet">{deskMessages.groups[group].hint}</p> : null}
      <p className="mb-3 font-semibold" role="status">
        {words.found(all)}
      </p>
      {all > 0 ? (
        <p className="mb-5">
          <ButtonLink kind="quiet" href={`/lead/trials/${trial.id}/letters?to=${group ?? "everyone"}#write`}>
            {words.write}
          </ButtonLink>
        </p>
      ) : null}
      <ul className="max-w-[44em]">
        {people.map((person) => (
          <PersonCard key={person.pseudonym} trial={trial} person={person} />
        ))}
      </ul>
      <PageTurner
        hrefOf={(to) => `?${new URLSearchParams({ ...(group ? { group } : {}), page: String(to) })}`}
        {...{ page, pages }}
        hasMore={page < pages}
      />
    </DeskPage>
  );
}

function GroupLinks({ trialId, group }: { trialId: string; group: PeopleGroup | null }) {
  const choices = [null, ...PEOPLE_GROUPS];
  return (
    <nav aria-label={words.filter} className="mb-4 flex flex-wrap gap-2">
      {choices.map((each) => (
        <Link
          key={each}
          href={`/lead/trials/${trialId}/people${each ? `?group=${each}` : ""}`}
          aria-current={each === group ? "page" : undefined}
          data-button=""
          className="inline-flex min-h-[44px] items-center rounded-[5px] border-2 border-edge px-3 text-ink no-underline aria-[current]:border-act aria-[current]:bg-act aria-[current]:font-bold aria-[current]:text-on-act"
        >
          {each ? deskMessages.groups[each].name : words.everyone}
        </Link>
      ))}
    </nav>
  );
}

function PersonCard({ trial, person }: { trial: PeoplePage["trial"]; person: Person }) {
  const { pseudonym, region, joinedAt, sets, isHere } = person;
  return (
    <li className="border-t border-line py-3">
      <h2 className="font-mono text-[1.0625rem]">{pseudonym}</h2>
      <p className="text-quiet">{words.joined(region, dayWords(joinedAt.toISOString().slice(0, 10)))}</p>
      {isHere ? null : <p className="text-quiet">{words.left}</p>}
      {sets.length === 0 ? <p>{words.noSets}</p> : null}
      <ul className="my-1">
        {sets.map((set) => (
          <li key={set.code} className="py-1">
            <span className="font-semibold">{words.set(set.code, dayWords(set.day))}</span>
            {": "}
            {standing(set)}
          </li>
        ))}
      </ul>
      {isHere ? (
        <Link
          href={`/lead/trials/${trial.id}/letters?to=home-${pseudonym}#write`}
          className="inline-flex min-h-[44px] items-center"
        >
          {words.writeOne(pseudonym)}
        </Link>
      ) : null}
    </li>
  );
}

/** How far a set has come, and what is late. */
function standing(set: Person["sets"][number]): string {
  if (set.status === "planned") return words.planned;
  if (set.status === "abandoned")
    return words.givenUp(setMessages.outing.reasons[set.abandonReason ?? "other"]);
  if (set.setOut + set.settled === 0) return words.drawn;
  const parts = [words.counts(set.setOut, set.boxes, set.settled)];
  if (set.unrecorded > 0) parts.push(words.unrecorded(set.unrecorded));
  if (set.fetchOn) {
    const day = dayWords(set.fetchOn);
    parts.push(set.isOverdue ? words.overdue(day) : words.fetchOn(day));
  }
  return parts.join("; ");
}
