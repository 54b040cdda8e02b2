import type { Metadata } from "next";
import { requireActor } from "@/lib/auth/session";
import { shelfView } from "@/lib/services/growing/variants";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { recipeMessages } from "@/lib/ui/messages/en/recipes";
import { RecipeFacts } from "./_components/recipe-facts";

const words = recipeMessages;

export const metadata: Metadata = { title: words.title };

export default async function RecipesPage() {
  const actor = await requireActor("/variants");
  const shelf = await reading((tx) => shelfView(tx, actor));
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      {shelf.length === 0 ? <p className="mb-6">{words.none}</p> : null}
      {shelf.map(({ variantId, name, content, moisture }) => (
        <section key={variantId} className="mb-8">
          <h2 className="mb-1">{name}</h2>
          <RecipeFacts content={content} moisture={moisture} />
        </section>
      ))}
      {shelf.length > 0 ? <p className="mb-6 max-w-[44em] text-quiet">{words.moistureBasis}</p> : null}
      <ButtonLink href="/variants/new">{words.add}</ButtonLink>
    </>
  );
}
