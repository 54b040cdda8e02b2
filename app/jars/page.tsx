import type { Metadata } from "next";
import Link from "next/link";
import { requireActor } from "@/lib/auth/session";
import { jarList } from "@/lib/services/growing/jars";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { momentWords } from "@/lib/ui/format";
import { jarMessages as words } from "@/lib/ui/messages/en/jars";
import { isUuid } from "@/shared/schemas/id";

export const metadata: Metadata = { title: words.title };

export default async function JarsPage({ searchParams }: { searchParams: Promise<{ before?: string }> }) {
  const actor = await requireActor("/jars");
  const { before } = await searchParams;
  const { items, next } = await reading((tx) => jarList(tx, actor, isUuid(before) ? before : undefined));
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      {items.length === 0 ? <p className="mb-6">{words.none}</p> : null}
      <ul className="mb-6 max-w-[44em]">
        {items.map(({ id, madeAt, grainG, sugarG, boxCodes }) => (
          <li key={id} className="mb-3 rounded-[5px] border-2 border-ink p-3.5">
            <Link href={`/jars/${id}`} className="inline-flex min-h-[44px] items-center font-bold">
              {words.jarOf(boxCodes.join(", "))}
            </Link>
            <p>{words.amounts(grainG, sugarG)}</p>
            <p className="text-quiet">{momentWords(madeAt)}</p>
          </li>
        ))}
      </ul>
      {next ? (
        <p className="mb-6">
          <Link href={`/jars?before=${next}`} className="inline-flex min-h-[44px] items-center">
            {words.older}
          </Link>
        </p>
      ) : null}
      <ButtonLink href="/jars/new">{words.add}</ButtonLink>
    </>
  );
}
