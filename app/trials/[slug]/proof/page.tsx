import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { cache } from "react";
import { readReceipt } from "@/lib/services/read-ledger";
import { readTrial, type TrialView } from "@/lib/services/read-trials";
import { Facts } from "@/lib/ui/components/facts";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { whole } from "@/lib/ui/format";
import { proofMessages as words } from "@/lib/ui/messages/en/proof";
import { trialMessages } from "@/lib/ui/messages/en/trials";
import { CheckDraws } from "./_components/check-draws";
import { Code } from "./_components/code";
import { ReceiptLookup } from "./_components/receipt-lookup";

interface Props {
  params: Promise<{ slug: string }>;
  searchParams: Promise<{ receipt?: string | string[] }>;
}

const load = cache((slug: string) => readTrial(slug));

export async function generateMetadata({ params }: Pick<Props, "params">): Promise<Metadata> {
  const trial = await load((await params).slug);
  return trial ? { title: words.pageTitle(trial.title) } : {};
}

export default async function ProofPage({ params, searchParams }: Props) {
  const trial = await load((await params).slug);
  if (!trial) notFound();
  const { receipt } = await searchParams;
  const typed = typeof receipt === "string" ? receipt.trim() : "";
  const standing = typed === "" ? null : await readReceipt(trial.id, typed);
  const here = `/trials/${trial.slug}/proof`;
  return (
    <>
      <p className="mb-1 text-quiet">
        {trial.invented ? `${trial.title} · ${trialMessages.inventedShort}` : trial.title}
      </p>
      <PageHeading title={words.title} lead={words.lead} />
      <section className="mb-8 max-w-[44em]">
        <h2 className="mb-2">{words.how}</h2>
        <ol className="list-decimal space-y-1.5 pl-6">
          {words.steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      </section>
      <Published trial={trial} />
      <section className="mb-8" id="receipt">
        <h2 className="mb-1">{words.receipt}</h2>
        <p className="mb-3 max-w-[42em] text-quiet">{words.receiptLead}</p>
        <ReceiptLookup
          action={`${here}#receipt`}
          typed={typed}
          standing={standing}
          draws={trial.drawCount}
          closed={trial.status === "closed"}
        />
      </section>
      <Ledger trial={trial} />
      <p>
        <Link href={`/trials/${trial.slug}`}>{words.toTrial}</Link>
      </p>
    </>
  );
}

function Published({ trial: { seal, drawCount, lastHash, planHash, openedSecret } }: { trial: TrialView }) {
  return (
    <section className="mb-8">
      <h2 className="mb-1">{words.now}</h2>
      <p className="mb-2 max-w-[42em] text-quiet">{words.nowNote}</p>
      <Facts
        items={[
          { label: words.seal, value: <Code>{seal}</Code> },
          { label: words.draws, value: whole(drawCount) },
          { label: words.lastHash, value: <Code>{lastHash}</Code> },
          { label: words.planHash, value: <Code>{planHash}</Code> },
          { label: words.secret, value: openedSecret ? <Code>{openedSecret}</Code> : words.secretKept },
          { label: words.headLine, value: <Code>{[seal, drawCount, lastHash].join(",")}</Code> },
        ]}
      />
    </section>
  );
}

function Ledger({ trial: { id, slug, status, seal, drawCount, lastHash } }: { trial: TrialView }) {
  if (status !== "closed") {
    return (
      <section className="mb-8">
        <h2 className="mb-1">{words.ledger}</h2>
        <p className="max-w-[42em]">{words.ledgerSealed}</p>
      </section>
    );
  }
  const ledgerUrl = `/trials/${slug}/ledger`;
  return (
    <>
      <section className="mb-8">
        <h2 className="mb-1">{words.check}</h2>
        <p className="mb-3 max-w-[42em] text-quiet">{words.checkLead}</p>
        <CheckDraws trialId={id} ledgerUrl={ledgerUrl} published={{ seal, draws: drawCount, lastHash }} />
      </section>
      <section className="mb-8">
        <h2 className="mb-1">{words.ledger}</h2>
        <p className="mb-2">
          <a href={ledgerUrl} download>
            {words.download}
          </a>
        </p>
        <p className="max-w-[42em] text-quiet">{words.downloadNote}</p>
        <p className="mt-2 max-w-[44em] break-all bg-panel p-3 text-[0.9375rem]">
          <Code>{words.command(slug, [seal, drawCount, lastHash].join(","))}</Code>
        </p>
      </section>
    </>
  );
}
