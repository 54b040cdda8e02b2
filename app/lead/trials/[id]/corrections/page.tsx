import type { Metadata } from "next";
import Link from "next/link";
import { notFound, redirect } from "next/navigation";
import type { ReactNode } from "react";
import { requireActor } from "@/lib/auth/session";
import { type CorrectionRequest, correctionLists, type OddRecord } from "@/lib/services/lead/corrections";
import { reading } from "@/lib/services/run";
import { Button } from "@/lib/ui/components/button";
import { TextField } from "@/lib/ui/components/text-field";
import { dayWords } from "@/lib/ui/format";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { ODD_SIGNS } from "@/shared/vocabulary/desk";
import { DeskPage } from "../_components/desk-page";
import { pageNumber } from "../_components/page-number";
import { PageTurner } from "../_components/page-turner";

const words = deskMessages.corrections;

export const metadata: Metadata = { title: words.title };

interface Props {
  params: Promise<{ id: string }>;
  searchParams: Promise<{ box?: string; unknown?: string; page?: string }>;
}

export default async function CorrectionsPage({ params, searchParams }: Props) {
  const [{ id }, asked] = [await params, await searchParams];
  const actor = await requireActor(`/lead/trials/${id}/corrections`);
  const code = typeof asked.box === "string" ? asked.box.trim().toUpperCase() : "";
  if (code) redirect(`/lead/trials/${id}/boxes/${encodeURIComponent(code)}`);
  const page = pageNumber(asked.page);
  const found = await reading((tx) => correctionLists(tx, actor, { trialId: id, page }, new Date()));
  if (!found.ok) notFound();
  const { trial, open, answered, odd } = found.value;
  const boxes = `/lead/trials/${trial.id}/boxes`;
  return (
    <DeskPage trial={trial} title={words.title} lead={words.lead}>
      <form method="get" noValidate className="mb-9">
        <h2 className="mb-3">{words.find}</h2>
        <TextField
          name="box"
          label={words.code}
          hint={words.codeHint}
          error={asked.unknown ? words.unknown : asked.box === undefined ? undefined : words.codeMissing}
          autoFocus={asked.unknown !== undefined || asked.box !== undefined}
          defaultValue={asked.unknown}
          maxLength={12}
          autoComplete="off"
          required
        />
        <Button kind="quiet">{words.open}</Button>
      </form>
      <List title={words.waiting} none={words.noWaiting}>
        {open.items.map((request) => (
          <RequestItem key={request.id} boxes={boxes} request={request} />
        ))}
      </List>
      {trial.status === "open" ? (
        <List title={words.odd} lead={words.oddLead} none={words.noOdd}>
          {odd.items.map((record) => (
            <OddItem key={`${record.boxCode} ${record.sign}`} boxes={boxes} record={record} />
          ))}
        </List>
      ) : null}
      <List title={words.answered} none={words.noAnswered}>
        {answered.items.map((request) => (
          <RequestItem key={request.id} boxes={boxes} request={request} />
        ))}
      </List>
      <PageTurner
        hrefOf={(to) => `?page=${to}`}
        page={page}
        hasMore={[open, answered, odd].some(({ more }) => more)}
      />
    </DeskPage>
  );
}

function List(props: { title: string; lead?: string; none: string; children: readonly ReactNode[] }) {
  return (
    <section className="mb-8">
      <h2 className="mb-1">{props.title}</h2>
      {props.lead ? <p className="max-w-[44em] text-quiet">{props.lead}</p> : null}
      {props.children.length === 0 ? <p>{props.none}</p> : <ul className="max-w-[44em]">{props.children}</ul>}
    </section>
  );
}

function BoxLink({ boxes, code, query = "" }: { boxes: string; code: string; query?: string }) {
  return (
    <Link
      href={`${boxes}/${encodeURIComponent(code)}${query}`}
      className="inline-flex min-h-[44px] items-center font-mono"
    >
      {code}
    </Link>
  );
}

function OddItem({ boxes, record: { boxCode, sign } }: { boxes: string; record: OddRecord }) {
  return (
    <li className="border-t border-line py-1">
      <BoxLink boxes={boxes} code={boxCode} query={`?kind=${ODD_SIGNS[sign]}`} />
      <p>{words.signs[sign]}</p>
    </li>
  );
}

function RequestItem({ boxes, request }: { boxes: string; request: CorrectionRequest }) {
  const { boxCode, kind, words: own, askedAt, answer } = request;
  return (
    <li className="border-t border-line py-1">
      <BoxLink boxes={boxes} code={boxCode} />
      <p className="font-semibold">{words.kinds[kind]}</p>
      {own ? (
        <p dir="auto" className="whitespace-pre-line">
          {own}
        </p>
      ) : null}
      <p className="text-quiet">
        {words.asked(dayWords(askedAt.toISOString().slice(0, 10)))}
        {answer ? `. ${words.answers[answer]}.` : null}
      </p>
    </li>
  );
}
