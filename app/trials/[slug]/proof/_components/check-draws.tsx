"use client";

import { type ChangeEvent, useId } from "react";
import { Button } from "@/lib/ui/components/button";
import { Field, INPUT_LOOK } from "@/lib/ui/components/field";
import { Notice } from "@/lib/ui/components/notice";
import { whole } from "@/lib/ui/format";
import { proofMessages as words } from "@/lib/ui/messages/en/proof";
import type { PublishedHead } from "@/shared/schemas/draw";
import { CheckAnswer } from "./check-answer";
import { type CheckState, useCheck } from "./use-check";

interface Props {
  readonly trialId: string;
  readonly ledgerUrl: string;
  /** As this page shows it. */
  readonly published: PublishedHead;
}

/** Makes every draw again in the reader's browser, from the ledger published here or one the reader kept. */
export function CheckDraws({ trialId, ledgerUrl, published }: Props) {
  const { state, start, stop } = useCheck();
  const fileId = useId();

  function checkFile(event: ChangeEvent<HTMLInputElement>) {
    const file = event.currentTarget.files?.[0];
    if (file) start({ from: { file }, trialId, published });
    // So that choosing the same file again checks it again.
    event.currentTarget.value = "";
  }

  const running = state.kind === "running";
  return (
    <>
      <p className="mb-5 flex flex-wrap gap-3">
        <Button
          type="button"
          disabled={running}
          onClick={() => start({ from: { url: ledgerUrl }, trialId, published })}
        >
          {words.checkButton}
        </Button>
        {running ? (
          <Button type="button" kind="quiet" onClick={stop}>
            {words.stop}
          </Button>
        ) : null}
      </p>
      <Progress state={state} />
      {state.kind === "broken" ? <Notice kind="due">{words.broken}</Notice> : null}
      {state.kind === "done" ? <CheckAnswer outcome={state.outcome} published={published} /> : null}
      <Field id={fileId} label={words.ownFile} hint={words.ownFileHint}>
        <input
          id={fileId}
          type="file"
          accept="application/json,.json"
          aria-describedby={`${fileId}-hint`}
          disabled={running}
          onChange={checkFile}
          className={`${INPUT_LOOK} py-3`}
        />
      </Field>
    </>
  );
}

function Progress({ state }: { state: CheckState }) {
  if (state.kind !== "running") return null;
  const { checked, draws } = state;
  return (
    <div className="mb-5 max-w-[30em]">
      <p className="mb-1">{draws === null ? words.fetching : words.checking(whole(checked), whole(draws))}</p>
      <progress
        className="h-3 w-full appearance-none bg-line [&::-moz-progress-bar]:bg-act [&::-webkit-progress-bar]:bg-line [&::-webkit-progress-value]:bg-act"
        aria-label={words.progressLabel}
        max={draws ?? undefined}
        value={draws === null ? undefined : checked}
      />
    </div>
  );
}
