import Link from "next/link";
import type { Desk } from "@/lib/services/lead/desk";
import { whole } from "@/lib/ui/format";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { PEOPLE_GROUPS } from "@/shared/vocabulary/desk";

const words = deskMessages.waiting;

/** Who of a running trial waits for what, each a way to the homes it counts. */
export function Waiting({ trialId, desk }: { trialId: string; desk: Desk }) {
  const page = `/lead/trials/${trialId}`;
  return (
    <section className="mb-8">
      <h2 className="mb-1">{words.title}</h2>
      <p className="mb-2 max-w-[44em] text-quiet">
        {desk.households === 0 ? words.nobody : words.lead(desk.households, desk.here)}
      </p>
      <ul className="max-w-[44em] border-t border-line">
        {PEOPLE_GROUPS.map((group) => (
          <Row
            key={group}
            href={`${page}/people?group=${group}`}
            label={deskMessages.groups[group].name}
            count={desk.groups[group]}
          />
        ))}
        <Row href={`${page}/corrections`} label={words.requests} count={desk.openRequests} />
      </ul>
    </section>
  );
}

function Row({ href, label, count }: { href: string; label: string; count: number }) {
  return (
    <li className="border-b border-line">
      <Link href={href} className="flex min-h-[44px] items-center justify-between gap-3 py-1">
        <span>{label}</span>
        <span className={`tabular-nums ${count > 0 ? "font-bold" : "text-quiet"}`}>{whole(count)}</span>
      </Link>
    </li>
  );
}
