import type { Metadata } from "next";
import { requireActor } from "@/lib/auth/session";
import { type MyThings, myThings } from "@/lib/services/growing/my-things";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { dayWords } from "@/lib/ui/format";
import { myThingsMessages as words } from "@/lib/ui/messages/en/my-things";
import { pauseMessages } from "@/lib/ui/messages/en/pauses";
import { placeMessages } from "@/lib/ui/messages/en/places";
import { isDueNow, SetCard } from "../outings/_components/set-card";
import { Comparisons } from "./_components/comparisons";
import { FirstSet } from "./_components/first-set";
import { Letters } from "./_components/letters";
import { Missing } from "./_components/missing";
import { Requests } from "./_components/requests";

export const metadata: Metadata = { title: words.title };

export default async function MyThingsPage() {
  const actor = await requireActor("/my-things");
  const things = await reading((tx) => myThings(tx, actor));
  return (
    <>
      <PageHeading title={words.title} />
      <Pauses pauses={things.pauses} />
      <Requests requests={things.requests} />
      {things.hasSets ? <Sets sets={things.sets} /> : <FirstSet start={startOf(things)} />}
      <Missing things={things} />
      <Ways things={things} />
      <Comparisons comparisons={things.comparisons} />
      <Letters letters={things.letters} />
    </>
  );
}

function Ways({ things: { hasSets, takesPart, places } }: { things: MyThings }) {
  return (
    <p className="mb-9 flex flex-wrap gap-3">
      {hasSets ? (
        <ButtonLink kind={takesPart && places.length > 0 ? "main" : "quiet"} href="/outings/new">
          {words.plan}
        </ButtonLink>
      ) : null}
      <ButtonLink kind="quiet" href="/outings">
        {words.allSets}
      </ButtonLink>
      <ButtonLink kind="quiet" href="/sites">
        {words.places}
      </ButtonLink>
      <ButtonLink kind="quiet" href="/variants">
        {words.recipes}
      </ButtonLink>
      <ButtonLink kind="quiet" href="/jars">
        {words.jars}
      </ButtonLink>
    </p>
  );
}

/** The first thing a newcomer lacks. */
function startOf({ takesPart, places }: MyThings) {
  if (!takesPart) return { href: "/trials", words: words.findTrial };
  if (places.length === 0) return { href: "/sites/new", words: placeMessages.add };
  return { href: "/outings/new", words: words.plan };
}

function Sets({ sets }: Pick<MyThings, "sets">) {
  const due = sets.filter((set) => isDueNow(set.due));
  const later = sets.filter((set) => !isDueNow(set.due));
  return (
    <>
      <section className="mb-9">
        <h2 className="mb-2">{words.dueTitle}</h2>
        {due.length === 0 ? <p>{words.nothingDue}</p> : due.map((set) => <SetCard key={set.id} item={set} />)}
      </section>
      {later.length > 0 ? (
        <section className="mb-9">
          <h2 className="mb-2">{words.laterTitle}</h2>
          {later.map((set) => (
            <SetCard key={set.id} item={set} />
          ))}
        </section>
      ) : null}
    </>
  );
}

function Pauses({ pauses }: Pick<MyThings, "pauses">) {
  return pauses.map(({ trialSlug, trialTitle, reason, pausedAt }) => (
    <Notice key={trialSlug} kind="info">
      <p>
        {words.paused(trialTitle)}{" "}
        {pauseMessages.stands(pauseMessages.reasons[reason], dayWords(pausedAt.toISOString().slice(0, 10)))}
      </p>
      <p className="font-normal">{pauseMessages.meaning}</p>
      <p className="font-normal">{pauseMessages.caution}</p>
    </Notice>
  ));
}
