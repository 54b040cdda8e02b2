"use client";

import { useState } from "react";
import { ActionForm } from "@/lib/ui/components/action-form";
import { Button } from "@/lib/ui/components/button";
import { TextField } from "@/lib/ui/components/text-field";
import type { FormState } from "@/lib/ui/form-state";
import { dayWords } from "@/lib/ui/format";
import { helperMessages as words } from "@/lib/ui/messages/en/helpers";
import { makeLink, takeBackLink } from "./helper-link-actions";

interface Props {
  readonly outingId: string;
  /** Until when a link made earlier holds, `YYYY-MM-DD`; null where none does. */
  readonly holdsUntil: string | null;
}

/** A link with which somebody without an account helps with this set: made, shown once, and taken back. */
export function HelperLink({ outingId, holdsUntil }: Props) {
  const [isHeld, setHeld] = useState(holdsUntil !== null);

  async function make(previous: FormState, form: FormData) {
    const state = await makeLink(previous, form);
    if (state.done) setHeld(true);
    return state;
  }
  async function takeBack(previous: FormState, form: FormData) {
    const state = await takeBackLink(previous, form);
    if (state.done) setHeld(false);
    return state;
  }

  return (
    <>
      <p className="mb-3">{words.lead}</p>
      {holdsUntil && isHeld ? (
        <p className="mb-3 text-quiet">
          {words.until(dayWords(holdsUntil))} {words.anewEnds}
        </p>
      ) : null}
      <ActionForm
        action={make}
        words={words.outcomes}
        submit={isHeld ? words.makeAnew : words.make}
        kind="quiet"
      >
        {({ values }) => (
          <>
            <input type="hidden" name="outingId" value={outingId} />
            {values?.link && isHeld ? <ShownOnce {...values} /> : null}
          </>
        )}
      </ActionForm>
      {isHeld ? (
        <div className="mt-3">
          <ActionForm action={takeBack} words={words.outcomes} submit={words.takeBack} kind="quiet">
            {() => <input type="hidden" name="outingId" value={outingId} />}
          </ActionForm>
        </div>
      ) : null}
    </>
  );
}

function ShownOnce({ link = "", until = "", qr = "" }: Readonly<Record<string, string>>) {
  const [isCopied, setCopied] = useState(false);
  return (
    <div className="mb-4">
      <p className="mb-2 font-semibold">
        {words.shownOnce} {until ? words.until(dayWords(until)) : null}
      </p>
      {/* biome-ignore lint/performance/noImgElement: drawn here, nothing is fetched */}
      <img
        src={`data:image/svg+xml,${encodeURIComponent(qr)}`}
        alt={words.qr}
        width={220}
        height={220}
        className="mb-3"
      />
      <TextField
        name="link"
        label={words.link}
        readOnly
        value={link}
        onFocus={(event) => event.target.select()}
      />
      <Button
        type="button"
        kind="quiet"
        onClick={async () => {
          await navigator.clipboard?.writeText(link);
          setCopied(true);
        }}
      >
        {words.copy}
      </Button>
      <p role="status">{isCopied ? words.copied : null}</p>
    </div>
  );
}
