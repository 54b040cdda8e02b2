"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import { v7 } from "uuid";
import { sugarForGrainG } from "@/lib/engine/jar/water-activity";
import type { JarChoice } from "@/lib/services/growing/jars";
import { Button } from "@/lib/ui/components/button";
import { MomentField } from "@/lib/ui/components/moment-field";
import { NumberField } from "@/lib/ui/components/number-field";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { isStaleRefusal, StaleNotice } from "@/lib/ui/components/stale-notice";
import { DraftNote } from "@/lib/ui/drafts/draft-note";
import { useDraft } from "@/lib/ui/drafts/use-draft";
import { draftMessages } from "@/lib/ui/messages/en/drafts";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { formMessages } from "@/lib/ui/messages/en/forms";
import { jarMessages as words } from "@/lib/ui/messages/en/jars";
import { localNow } from "@/lib/ui/moments";
import { type SentProblem, sendWrite } from "@/lib/ui/send";
import { BoxesField } from "./boxes-field";
import {
  contentsOf,
  type JarStart,
  jarFaults,
  newJarDraft,
  SUGAR_ID,
  syrupOfDraft,
  totalGrainG,
} from "./jar-draft";
import { Syrup } from "./syrup";

interface Props {
  /** Where the draft is kept on this phone. */
  readonly draftName: string;
  readonly path: string;
  /** The jar that is corrected; null for a new one. */
  readonly jarId: string | null;
  readonly choices: readonly JarChoice[];
  readonly start: JarStart;
}

/** Boxes with grams each, sugar, and when; what it makes of the syrup is said while one types. */
export function JarForm({ draftName, path, jarId, choices, start }: Props) {
  const router = useRouter();
  const { draft, state, change, forget } = useDraft(draftName, () => newJarDraft(start));
  const [busy, setBusy] = useState(false);
  const [isChecked, setChecked] = useState(false);
  const [problem, setProblem] = useState<SentProblem | null>(null);
  const faults = jarFaults(draft, choices);
  const grainG = totalGrainG(draft);
  const syrup = syrupOfDraft(draft, choices);
  const standingGrainG = start.boxes.reduce((sum, box) => sum + (box.grainG ?? 0), 0);
  const isStale = state !== "untouched" && draft.basedOn !== start.version;

  function errorOf(inputId: string): string | undefined {
    const fault = isChecked ? faults.find(({ path }) => path === inputId) : undefined;
    return fault && fieldWords(fault.code);
  }

  async function save(event: FormEvent) {
    event.preventDefault();
    setChecked(true);
    if (faults.length > 0) {
      const fields = faults.map((fault) => ({ ...fault, words: fieldWords(fault.code) }));
      return setProblem({ reason: "INVALID", ...formMessages.invalid, fields });
    }
    const sending = jarId ? draft : change({ madeAt: draft.madeAt || localNow() });
    setBusy(true);
    setProblem(null);
    const { id, basedOn } = sending;
    const body = { id, ...(jarId ? { jarId, basedOn } : {}), ...contentsOf(sending, start) };
    const sent = await sendWrite<{ jarId: string }>(path, body, draftMessages.noSignal);
    setBusy(false);
    if (!sent.ok) {
      setProblem(sent.problem);
      if (jarId && isStaleRefusal(sent.problem)) router.refresh();
      return;
    }
    forget();
    router.push(`/jars/${sent.value.jarId}`);
    router.refresh();
  }

  return (
    <form onSubmit={save} noValidate>
      {isStale ? (
        <StaleNotice
          words={words}
          standing={words.staleStands(words.amounts(standingGrainG, start.sugarG ?? 0))}
          onKeepMine={() => {
            setProblem(null);
            change({ id: v7(), basedOn: start.version });
          }}
          onTakeStanding={() => {
            setProblem(null);
            forget(newJarDraft(start));
          }}
        />
      ) : (
        <ProblemNotice
          problem={problem}
          inputs={Object.fromEntries(problem?.fields.map(({ path }) => [path, path]) ?? [])}
        />
      )}
      <BoxesField draft={draft} choices={choices} change={change} errorOf={errorOf} />
      <NumberField
        id={SUGAR_ID}
        name="sugar"
        label={words.sugar}
        hint={words.sugarHow}
        error={errorOf(SUGAR_ID)}
        unit={words.grams}
        value={draft.sugar}
        onChange={(event) => change({ sugar: event.target.value })}
      />
      {grainG > 0 ? (
        <p className="mb-5">
          <Button
            type="button"
            kind="quiet"
            onClick={() => change({ sugar: String(Math.round(sugarForGrainG(grainG))) })}
          >
            {words.equal(sugarForGrainG(grainG))}
          </Button>
        </p>
      ) : null}
      <MomentField
        name="madeAt"
        label={words.madeAt}
        hint={jarId ? words.madeAtStands : words.madeAtHint}
        value={draft.madeAt}
        onChange={(madeAt) => change({ madeAt })}
      />
      <div role="status">{syrup ? <Syrup syrup={syrup} /> : null}</div>
      <DraftNote state={state} />
      <Button disabled={busy}>{busy ? words.sending : jarId ? words.saveEdit : words.save}</Button>
    </form>
  );
}
