import type { Metadata } from "next";
import Link from "next/link";
import { requireActor } from "@/lib/auth/session";
import { shelfView } from "@/lib/services/growing/variants";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { recipeMessages as words } from "@/lib/ui/messages/en/recipes";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";

export const metadata: Metadata = { title: words.title };

/** Every recipe by its latest version; earlier ones stand on its page. */
export default async function RecipesPage() {
  const actor = await requireActor("/variants");
  const shelf = (await reading((tx) => shelfView(tx, actor))).filter(({ hasLater }) => !hasLater);
  return (
    <>
      <PageHeading title={words.title} lead={`${words.lead} ${words.private}`} />
      {shelf.length === 0 ? <p className="mb-6">{words.none}</p> : null}
      <ul className="mb-6 max-w-[44em]">
        {shelf.map(({ variantId, name, content, earlier }) => (
          <li key={variantId} className="border-b border-line py-3 first:border-t-2 first:border-t-ink">
            <Link
              href={`/variants/${variantId}`}
              className="inline-flex min-h-[44px] items-center text-[1.1875rem] font-bold"
            >
              {name}
            </Link>
            <p>
              {vocabularyMessages.recipeName(content)}
              {earlier.length > 0 ? ` · ${words.version(earlier.length + 1)}` : null}
            </p>
            <p className="text-quiet">{vocabularyMessages.recipeSteps(content)}</p>
          </li>
        ))}
      </ul>
      <ButtonLink href="/variants/new">{words.add}</ButtonLink>
    </>
  );
}
