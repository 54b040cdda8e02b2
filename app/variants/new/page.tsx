import type { Metadata } from "next";
import { requireActor } from "@/lib/auth/session";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { recipeMessages } from "@/lib/ui/messages/en/recipes";
import { RecipeForm } from "./_components/recipe-form";

const words = recipeMessages;

export const metadata: Metadata = { title: words.newTitle };

export default async function NewRecipePage() {
  await requireActor("/variants/new");
  return (
    <>
      <PageHeading title={words.newTitle} lead={words.newLead} />
      <RecipeForm />
    </>
  );
}
