import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { env } from "@/lib/env";
import { datesOf } from "@/lib/services/growing/outing-dates";
import { type OutingView, outingView } from "@/lib/services/growing/outing-view";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { Caution } from "@/lib/ui/components/caution";
import { Facts } from "@/lib/ui/components/facts";
import { QrCode } from "@/lib/ui/components/qr-code";
import { dayWords, weekdayWords } from "@/lib/ui/format";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { isUuid } from "@/shared/schemas/id";
import { PrintButton } from "./_components/print-button";

const words = setMessages.sheet;

interface Props {
  params: Promise<{ id: string }>;
  searchParams: Promise<{ recipes?: string }>;
}

export const metadata: Metadata = { title: setMessages.outing.sheet };

/** What goes into the pocket: boxes as they stand with room to write, days, cautions, and labels to cut out. */
export default async function SheetPage({ params, searchParams }: Props) {
  const { id } = await params;
  const actor = await requireActor(`/outings/${id}/sheet`);
  const outing = isUuid(id) ? await reading((tx) => outingView(tx, actor, id)) : null;
  if (!outing?.receipt) notFound();
  const withRecipes = (await searchParams).recipes === "1";
  const other = withRecipes ? `/outings/${id}/sheet` : `/outings/${id}/sheet?recipes=1`;
  return (
    <>
      <div className="mb-6 print:hidden">
        <p className="mb-3 max-w-[38em] text-quiet">{words.lead}</p>
        <p className="flex flex-wrap gap-2.5">
          <PrintButton />
          <ButtonLink kind="quiet" href={other}>
            {withRecipes ? words.withoutRecipes : words.withRecipes}
          </ButtonLink>
          <ButtonLink kind="quiet" href={`/outings/${id}`}>
            {words.back}
          </ButtonLink>
        </p>
      </div>
      <h1 className="mb-3">{words.title(outing.code)}</h1>
      <Head outing={outing} />
      <Caution title={words.cautionTitle}>
        {words.cautions.map((text) => (
          <p key={text}>{text}</p>
        ))}
      </Caution>
      <BoxMap outing={outing} withRecipes={withRecipes} />
      <h2 className="mb-1">{words.notesTitle}</h2>
      <div className="mb-8 h-28 max-w-[50em] border-2 border-edge" />
      <Labels outing={outing} />
    </>
  );
}

function Head({ outing }: { outing: OutingView }) {
  const { fetch } = datesOf(outing);
  return (
    <div className="flex flex-wrap items-start gap-x-8">
      <div className="min-w-[16em] flex-1">
        <Facts
          items={[
            { label: words.trial, value: outing.trial.title },
            { label: words.setOutOn, value: dayWords(outing.day) },
            { label: words.fetch, value: fetchWords(fetch) },
          ]}
        />
      </div>
      <div className="mb-6 w-40">
        <QrCode address={new URL(`/outings/${outing.id}`, env().NEXTAUTH_URL).href} label={words.scanWords} />
        <p className="text-[0.875rem] text-quiet">{words.scan}</p>
      </div>
    </div>
  );
}

function fetchWords(fetch: ReturnType<typeof datesOf>["fetch"]): string {
  if (!fetch) return words.fetchUnknown;
  return fetch.isFixed
    ? words.fetchOn(weekdayWords(fetch.from))
    : words.fetchBetween(weekdayWords(fetch.from), weekdayWords(fetch.to));
}

/** A row per box with room for a pencil. */
function BoxMap({ outing, withRecipes }: { outing: OutingView; withRecipes: boolean }) {
  const columns = [words.setOutAt, words.fetchedAt, words.openedAt, words.happened];
  const cell = "border border-edge px-2 py-3 text-left align-top";
  return (
    <>
      <h2 className="mb-2">{words.mapTitle}</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard (WCAG 2.1.1) */}
      <section className="mb-6 max-w-[60em] overflow-x-auto" aria-label={words.mapTitle} tabIndex={0}>
        <table className="w-full border-collapse">
          <thead>
            <tr>
              {[words.place, words.label, ...(withRecipes ? [words.recipe] : []), ...columns].map((name) => (
                <th key={name} scope="col" className={`${cell} text-[0.9375rem]`}>
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {outing.boxes.map(({ id, position, code, recipe }) => (
              <tr key={id}>
                <td className={cell}>{position}</td>
                <th scope="row" className={`${cell} font-mono text-[1.25rem] whitespace-nowrap`}>
                  {code}
                </th>
                {withRecipes ? (
                  <td className={cell}>{recipe ? vocabularyMessages.recipeName(recipe.content) : null}</td>
                ) : null}
                {columns.map((name) => (
                  <td key={name} className={`${cell} min-w-[5em]`} />
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </>
  );
}

function Labels({ outing: { boxes } }: { outing: OutingView }) {
  return (
    <section className="break-before-page">
      <h2 className="mb-1">{words.labelsTitle}</h2>
      <p className="mb-3 text-quiet">{words.labelsLead}</p>
      <ul className="grid max-w-[50em] grid-cols-2 gap-3">
        {boxes.map(({ id, code }) => (
          <li key={id} className="break-inside-avoid border-2 border-dashed border-ink p-4 text-center">
            <span className="font-mono text-[1.75rem] leading-none font-bold whitespace-nowrap sm:text-[2.5rem] print:text-[3.5rem]">
              {code}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
