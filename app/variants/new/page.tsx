import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { recipeView } from "@/lib/services/growing/variants";
import { reading } from "@/lib/services/run";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { recipeMessages as words } from "@/lib/ui/messages/en/recipes";
import { isUuid } from "@/shared/schemas/id";
import { RecipeForm } from "./_components/recipe-form";

export const metadata: Metadata = { title: words.newTitle };

/** `follows`: the id of the recipe on one's shelf whose next version this is. */
export default async function NewRecipePage({
  searchParams,
}: {
  searchParams: Promise<{ follows?: string }>;
}) {
  const { follows } = await searchParams;
  const actor = await requireActor(follows ? `/variants/new?follows=${follows}` : "/variants/new");
  if (follows === undefined) {
    return (
      <>
        <PageHeading title={words.newTitle} lead={words.newLead} />
        <RecipeForm />
      </>
    );
  }
  const earlier = isUuid(follows) ? await reading((tx) => recipeView(tx, actor, follows)) : null;
  if (!earlier) notFound();
  const { variantId, name, content } = earlier;
  return (
    <>
      <PageHeading title={words.versionTitle(name)} lead={words.versionLead} />
      <RecipeForm earlier={{ variantId, name, content }} />
    </>
  );
}
