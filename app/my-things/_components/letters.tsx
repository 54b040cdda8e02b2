import Link from "next/link";
import type { MyThings } from "@/lib/services/growing/my-things";
import { dayWords } from "@/lib/ui/format";
import { myThingsMessages as words } from "@/lib/ui/messages/en/my-things";

/** Letters of leads, the latest open. Their text is shown as it was typed and nothing in it is a link. */
export function Letters({ letters }: Pick<MyThings, "letters">) {
  if (letters.length === 0) return null;
  return (
    <section className="mb-9 max-w-[44em]">
      <h2 className="mb-1">{words.lettersTitle}</h2>
      <p className="mb-2 text-quiet">{words.lettersLead}</p>
      {letters.map(({ id, subject, body, createdAt, trial }, place) => (
        <details key={id} open={place === 0} className="border-b border-line py-1">
          <summary className="min-h-[44px] cursor-pointer py-2 font-semibold" dir="auto">
            {subject}
          </summary>
          <p className="text-quiet">
            {words.letterFrom(
              trial?.title ?? words.trialGone,
              dayWords(createdAt.toISOString().slice(0, 10)),
            )}
          </p>
          <p className="my-2 whitespace-pre-line" dir="auto">
            {body}
          </p>
        </details>
      ))}
      <Link href="/account#letters" className="inline-flex min-h-[44px] items-center">
        {words.lettersOff}
      </Link>
    </section>
  );
}
