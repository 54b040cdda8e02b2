import Link from "next/link";
import type { NearTwin } from "@/lib/services/growing/variants";
import { recipeMessages as words } from "@/lib/ui/messages/en/recipes";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";

/** Recipes so like this one that they might be meant alike, each with where it stands and in what it differs. */
export function NearTwins({ twins }: { twins: readonly NearTwin[] }) {
  if (twins.length === 0) return null;
  return (
    <section className="mb-6 max-w-[44em]">
      <h2 className="mb-1">{words.twinsTitle}</h2>
      <p className="mb-2 text-quiet">{words.twinsLead}</p>
      <ul>
        {twins.map((twin) => (
          <li key={twin.variantId} className="border-b border-line py-2">
            <p className="font-semibold">{vocabularyMessages.recipeName(twin.content)}</p>
            <p>{vocabularyMessages.recipeSteps(twin.content)}</p>
            <p className="text-quiet">
              <Whose twin={twin} /> ·{" "}
              {words.differsIn(twin.differences.map((difference) => words.difference[difference]))}
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Whose({ twin: { variantId, name, trials } }: { twin: NearTwin }) {
  if (name !== null) return <Link href={`/variants/${variantId}`}>{words.twinYours(name)}</Link>;
  const [trial] = trials;
  return trial ? <Link href={`/trials/${trial.slug}`}>{trial.title}</Link> : words.twinOfTrial;
}
