import Link from "next/link";
import type { Actor } from "@/lib/auth/actor";
import { commonMessages } from "@/lib/ui/messages/en/common";
import { NavLink } from "./nav-link";

/** Word mark and navigation; only what the actor may use is linked. */
export function SiteHeader({ actor }: { actor: Pick<Actor, "isAdmin" | "mayLead"> | null }) {
  const words = commonMessages.nav;
  return (
    <header className="border-b-2 border-ink">
      <div className="mx-auto flex max-w-[76rem] flex-wrap items-center gap-x-3 px-[18px] sm:gap-x-5 py-1.5 lg:px-9">
        <Link
          href="/"
          className="inline-flex min-h-[44px] items-center text-[1.1875rem] font-extrabold tracking-tight text-ink no-underline"
        >
          {commonMessages.name}
        </Link>
        <nav aria-label={words.label} className="flex flex-1 flex-wrap gap-x-1.5 sm:gap-x-4">
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
