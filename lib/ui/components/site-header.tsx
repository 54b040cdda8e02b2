import Link from "next/link";
import type { Actor } from "@/lib/auth/actor";
import { commonMessages } from "@/lib/ui/messages/en/common";
import { NavLink } from "./nav-link";

/** Word mark and navigation; only what the actor may use is linked. */
export function SiteHeader({ actor }: { actor: Pick<Actor, "isAdmin" | "mayLead"> | null }) {
  const words = commonMessages.nav;
  const narrow = NARROW[actor?.isAdmin && actor.mayLead ? "five" : "four"];
  return (
    <header className="border-b-2 border-ink">
      <div
        className={`mx-auto flex max-w-[76rem] flex-wrap items-center gap-x-3 px-[18px] py-1.5 sm:gap-x-5 lg:px-9 ${narrow.row}`}
      >
        <Link
          href="/"
          className="inline-flex min-h-[44px] items-center text-[1.1875rem] font-extrabold tracking-tight text-ink no-underline"
        >
          {actor ? <NarrowMark className={narrow.mark} /> : null}
          <span className={actor ? narrow.name : ""}>{commonMessages.name}</span>
        </Link>
        <nav aria-label={words.label} className={`flex flex-1 flex-wrap gap-x-0.5 sm:gap-x-4 ${narrow.nav}`}>
          {actor ? <NavLink href="/my-things">{words.myThings}</NavLink> : null}
          <NavLink href="/trials">{words.trials}</NavLink>
          {actor?.mayLead ? <NavLink href="/lead">{words.lead}</NavLink> : null}
          {actor?.isAdmin ? <NavLink href="/admin">{words.admin}</NavLink> : null}
          <span className="ml-auto">
            {actor ? (
              <NavLink href="/account">{words.account}</NavLink>
            ) : (
              <NavLink href="/sign-in">{words.signIn}</NavLink>
            )}
          </span>
        </nav>
      </div>
    </header>
  );
}

/** By how many links there are at most: up to which width the word mark gives way, so that they stay in one line. */
const NARROW = {
  four: {
    mark: "max-[23rem]:block",
    name: "max-[23rem]:sr-only",
    nav: "max-[23rem]:text-[0.9375rem]",
    row: "",
  },
  five: {
    mark: "max-[28rem]:block",
    name: "max-[28rem]:sr-only",
    nav: "max-[25rem]:gap-x-0 max-[25rem]:text-[0.9375rem]",
    row: "max-[25rem]:gap-x-1.5",
  },
} as const;

/** Stands for the word mark on narrow screens: a box of grain with growth. */
function NarrowMark({ className }: { className: string }) {
  return (
    <svg viewBox="0 0 64 64" aria-hidden="true" className={`hidden size-7 ${className}`}>
      <rect x="4" y="12" width="56" height="40" rx="4" className="fill-none stroke-ink" strokeWidth="5" />
      <path
        d="M9 20q14-7 24 1q9 4 16-2q8-1 6 9q-5 8-11 9q-3 10-14 8q-9-6-14 0q-7 1-8-7z"
        className="fill-ink"
      />
    </svg>
  );
}
