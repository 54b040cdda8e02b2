import type { Metadata } from "next";
import Link from "next/link";
import { requireActor } from "@/lib/auth/session";
import { outingList } from "@/lib/services/growing/outing-list";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { isUuid } from "@/shared/schemas/id";
import { SetCard } from "./_components/set-card";

const words = setMessages.outings;

export const metadata: Metadata = { title: words.title };

export default async function OutingsPage({ searchParams }: { searchParams: Promise<{ before?: string }> }) {
  const actor = await requireActor("/outings");
  const { before } = await searchParams;
  const { items, next } = await reading((tx) => outingList(tx, actor, isUuid(before) ? before : undefined));
  return (
    <>
      <PageHeading title={words.title} />
      {items.length === 0 ? <p className="mb-6">{words.none}</p> : null}
      {items.map((item) => (
        <SetCard key={item.id} item={item} />
      ))}
      {next ? (
        <p className="mb-6">
          <Link href={`/outings?before=${next}`} className="inline-flex min-h-[44px] items-center">
            {words.older}
          </Link>
        </p>
      ) : null}
      <p className="flex flex-wrap gap-3">
        <ButtonLink href="/outings/new">{words.plan}</ButtonLink>
        <ButtonLink kind="quiet" href="/sites">
          {words.places}
        </ButtonLink>
        <ButtonLink kind="quiet" href="/variants">
          {words.recipes}
        </ButtonLink>
      </p>
    </>
  );
}
