import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { type RecipeView, recipeView } from "@/lib/services/growing/variants";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { dayWords } from "@/lib/ui/format";
import { recipeMessages as words } from "@/lib/ui/messages/en/recipes";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { isUuid } from "@/shared/schemas/id";
import { NearTwins } from "../_components/near-twins";
import { RecipeFacts } from "../_components/recipe-facts";
import { RenameForm, TakeOffForm } from "./_components/shelf-forms";

export const metadata: Metadata = { title: words.title };

interface Props {
  params: Promise<{ id: string }>;
}

export default async function RecipePage({ params }: Props) {
  const { id } = await params;
  const actor = await requireActor(`/variants/${id}`);
  const recipe = isUuid(id) ? await reading((tx) => recipeView(tx, actor, id)) : null;
  if (!recipe) notFound();
  return (
    <>
      <PageHeading title={recipe.name} lead={words.private} />
      <RecipeFacts content={recipe.content} moisture={recipe.moisture} />
      <p className="mb-6 max-w-[44em] text-quiet">{words.moistureBasis}</p>
      <p className="mb-8">
        <ButtonLink href={`/variants/new?follows=${id}`}>{words.makeVersion}</ButtonLink>
      </p>
      <Versions recipe={recipe} />
      <UsedIn trials={recipe.trials} />
      <NearTwins twins={recipe.twins} />
      <h2 className="mt-8 mb-2">{words.renameTitle}</h2>
      <RenameForm variantId={id} name={recipe.name} />
      <h2 className="mt-8 mb-2">{words.offTitle}</h2>
      <p className="mb-3 max-w-[38em] text-quiet">{words.offLead}</p>
      <TakeOffForm variantId={id} />
      <p className="mt-6">
        <Link href="/variants" className="inline-flex min-h-[44px] items-center">
          {words.toList}
        </Link>
      </p>
    </>
  );
}

function Versions({ recipe }: { recipe: RecipeView }) {
  const { earlier } = recipe;
  if (earlier.length === 0) return null;
  return (
    <section className="mb-6 max-w-[44em]">
      <h2 className="mb-1">{words.versions}</h2>
      <ol reversed className="list-decimal pl-6">
        {[recipe, ...earlier].map((version, place) => (
          <li key={version.variantId} className="py-1.5">
            {place === 0 ? (
              <span className="font-semibold">{words.versionNow}</span>
            ) : (
              <Link href={`/variants/${version.variantId}`}>{version.name}</Link>
            )}
            , {words.writtenOn(dayWords(version.createdAt.toISOString().slice(0, 10)))}
            <span className="block text-quiet">
              {vocabularyMessages.recipeName(version.content)};{" "}
              {vocabularyMessages.recipeSteps(version.content)}
            </span>
          </li>
        ))}
      </ol>
    </section>
  );
}

function UsedIn({ trials }: Pick<RecipeView, "trials">) {
  if (trials.length === 0) return null;
  return (
    <section className="mb-6">
      <h2 className="mb-1">{words.usedIn}</h2>
      <ul>
        {trials.map(({ slug, title }) => (
          <li key={slug}>
            <Link href={`/trials/${slug}`} className="inline-flex min-h-[44px] items-center">
              {title}
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}
