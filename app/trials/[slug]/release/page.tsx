import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { cache } from "react";
import { MANIFEST, type PublicRelease, readRelease } from "@/lib/services/read-release";
import { readTrial, type TrialView } from "@/lib/services/read-trials";
import { ButtonLink } from "@/lib/ui/components/button";
import { Facts } from "@/lib/ui/components/facts";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { dayWords } from "@/lib/ui/format";
import { releaseMessages as words } from "@/lib/ui/messages/en/release";
import { trialMessages } from "@/lib/ui/messages/en/trials";

interface Props {
  params: Promise<{ slug: string }>;
}

const load = cache((slug: string) => readTrial(slug));

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const trial = await load((await params).slug);
  return trial ? { title: words.pageTitle(trial.title), description: trial.question } : {};
}

export default async function ReleasePage({ params }: Props) {
  const trial = await load((await params).slug);
  const release = trial && (await readRelease(trial));
  if (!trial || !release) notFound();
  const { manifest, hash, methods } = release;
  const { growers, outings, boxes } = manifest.rests;
  const day = dayWords(manifest.releasedAt.slice(0, 10));
  return (
    <>
      <p className="mb-1 text-quiet">
        {trial.invented ? `${words.title} · ${trialMessages.inventedShort}` : words.title}
      </p>
      <PageHeading title={trial.title} lead={trial.question} />
      <p className="mb-4 max-w-[42em]">
        {words.released(day)} {words.rests(growers, outings, boxes)}
      </p>
      <p className="mb-8">
        <ButtonLink href={`/trials/${trial.slug}/results`}>{words.toResults}</ButtonLink>
      </p>
      <section className="mb-8 max-w-[44em]">
        <h2 className="mb-2">{words.cite}</h2>
        <p className="break-words bg-panel p-3">
          {words.citation({ title: trial.title, day, hash })} {trial.invented ? words.inventedCitation : null}
        </p>
      </section>
      <Files trial={trial} release={release} />
      <section className="mb-8 max-w-[44em]">
        <h2 className="mb-2">{words.check}</h2>
        <ol className="list-decimal space-y-2 break-words pl-6">
          {words.checkSteps(manifest.command, hash).map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      </section>
      <section className="mb-8">
        <h2 className="mb-2">{words.rowsTitle}</h2>
        <Facts prose items={Object.entries(words.column).map(([name, value]) => ({ label: name, value }))} />
      </section>
      <section className="mb-8 max-w-[44em]">
        <h2 className="mb-2">{words.methodsTitle}</h2>
        <MethodsText text={methods} />
      </section>
      <p>
        <Link href={`/trials/${trial.slug}`}>{words.toTrial}</Link>
      </p>
    </>
  );
}

function Files({ trial: { slug }, release }: { trial: TrialView; release: PublicRelease }) {
  const files = [...release.manifest.parts, { name: MANIFEST, sha256: release.hash, bytes: null }] as const;
  return (
    <section className="mb-8 max-w-[44em]">
      <h2 className="mb-1">{words.files}</h2>
      <p className="mb-3 text-quiet">{words.filesLead}</p>
      <ul className="border-t-2 border-ink">
        {files.map(({ name, sha256, bytes }) => (
          <li key={name} className="border-b border-line py-2">
            <a
              href={`/trials/${slug}/release/${name}`}
              download
              className="inline-flex min-h-11 items-center"
            >
              {words.file[name]}
            </a>
            <p className="break-all text-[0.9375rem] text-quiet">
              {name}
              {bytes === null ? "" : ` · ${words.size(bytes)}`} · <span className="font-mono">{sha256}</span>
            </p>
          </li>
        ))}
        <li className="border-b border-line py-2">
          <a href={`/trials/${slug}/ledger`} download className="inline-flex min-h-11 items-center">
            {words.ledger}
          </a>
        </li>
      </ul>
    </section>
  );
}

/** The frozen text, a paragraph for each of its own. */
function MethodsText({ text }: { text: string }) {
  return text
    .trim()
    .split("\n\n")
    .map((paragraph) => (
      <p key={paragraph} className="mb-3 break-words">
        {paragraph}
      </p>
    ));
}
