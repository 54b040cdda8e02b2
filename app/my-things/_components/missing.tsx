import Link from "next/link";
import type { ReactNode } from "react";
import type { MyThings } from "@/lib/services/growing/my-things";
import { myThingsMessages as words } from "@/lib/ui/messages/en/my-things";
import { placeMessages } from "@/lib/ui/messages/en/places";

/** What stands in the way of the next set: each with one tap to it. */
export function Missing({ things }: { things: MyThings }) {
  const { places, takesPart, waiting } = things;
  const unsettled = places.filter(({ standing }) => standing !== "said");
  const nothing = places.length > 0 && takesPart && waiting.length === 0 && unsettled.length === 0;
  if (nothing) return null;
  return (
    <section className="mb-9 max-w-[44em]">
      <h2 className="mb-1">{words.missingTitle}</h2>
      <ul>
        {takesPart ? null : (
          <Lack text={words.noTrial}>
            <To href="/trials">{words.findTrial}</To>
            <To href="/join">{words.joinWithCode}</To>
          </Lack>
        )}
        {waiting.map(({ id, trial, region }) => (
          <Lack key={id} text={words.waiting(trial.title, region.name)}>
            <To href={`/join/${encodeURIComponent(trial.joinCode)}`}>{words.waitingLink}</To>
          </Lack>
        ))}
        {places.length > 0 ? null : (
          <Lack text={words.noPlace}>
            <To href="/sites/new">{placeMessages.add}</To>
          </Lack>
        )}
        {unsettled.map(({ id, name, standing }) => (
          <Lack key={id} text={words.placeFault(name, placeMessages.permissionStanding[standing])}>
            <To href={`/sites/${id}/edit#permission`}>{placeMessages.permissionAsk}</To>
          </Lack>
        ))}
      </ul>
    </section>
  );
}

function Lack({ text, children }: { text: string; children: ReactNode }) {
  return (
    <li className="border-b border-line py-2">
      <p>{text}</p>
      <p className="flex flex-wrap gap-x-5">{children}</p>
    </li>
  );
}

function To({ href, children }: { href: string; children: string }) {
  return (
    <Link href={href} className="inline-flex min-h-[44px] items-center font-semibold">
      {children}
    </Link>
  );
}
