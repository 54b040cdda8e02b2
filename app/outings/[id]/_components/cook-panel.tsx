"use client";

import { useState } from "react";
import { Button } from "@/lib/ui/components/button";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { DraftNote } from "@/lib/ui/drafts/draft-note";
import { typedNumber } from "@/lib/ui/form-numbers";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import type { BoxEventDetail } from "@/shared/schemas/box-event";
import { COOKING_EVENTS } from "@/shared/vocabulary/box";
import type { GrainId } from "@/shared/vocabulary/grain";
import type { NamedBox } from "./box-picks";
import { type CookedBox, CookedBoxFields } from "./cooked-box-fields";
import { ReportExtras } from "./report-extras";
import { type Told, useReport } from "./use-report";

const words = stepMessages.cook;

const AS_PICKED: CookedBox = { kind: "cooked-as-drawn", differs: [], grain: "", minutes: "", reason: "" };

interface Props {
  readonly outingId: string;
  readonly boxes: readonly NamedBox[];
  readonly grains: readonly GrainId[];
  /** Names the draft, where a page holds several. */
  readonly step?: string;
}

/** That boxes were cooked as picked, all with one press; what was different is told box by box. */
export function CookPanel({ outingId, boxes, grains, step = "cook" }: Props) {
  const report = useReport(outingId, step, () => ({ cooked: {} as Readonly<Record<string, CookedBox>> }));
  const { draft, state, change, busy, problem, send } = report;
  const [differs, setDiffers] = useState(false);
  const hasExceptions = differs || Object.keys(draft.cooked).length > 0;
  const of = (boxId: string) => draft.cooked[boxId] ?? AS_PICKED;
  const told = boxes.flatMap(({ id }) => toldOf(id, of(id)));
  const isAsPicked = boxes.every(({ id }) => of(id).kind === AS_PICKED.kind);

  return (
    <>
      {hasExceptions ? (
        <>
          <p className="mb-3 text-quiet">{words.exceptionsLead}</p>
          {boxes.map((box) => (
            <CookedBoxFields
              key={box.id}
              box={box}
              grains={grains}
              value={of(box.id)}
              errorOf={(name) => {
                const at = told.findIndex(({ boxId }) => boxId === box.id);
                const fault = problem?.fields.find(({ path }) => path === `told.${at}.detail.${name}`);
                return fault && fieldWords(fault.code);
              }}
              onChange={(part) =>
                change({ cooked: { ...draft.cooked, [box.id]: { ...of(box.id), ...part } } })
              }
            />
          ))}
          <ReportExtras title={stepMessages.otherTime} report={report} />
        </>
      ) : null}
      <ProblemNotice problem={problem} />
      <DraftNote state={state} />
      <p className="flex flex-wrap gap-3">
        <Button
          type="button"
          className="w-full"
          disabled={busy || told.length === 0}
          onClick={() => void send(told)}
        >
          {busy ? stepMessages.sending : isAsPicked ? words.all(boxes.length) : words.save}
        </Button>
        {hasExceptions ? null : (
          <Button type="button" kind="quiet" className="w-full" onClick={() => setDiffers(true)}>
            {words.exceptions}
          </Button>
        )}
      </p>
    </>
  );
}

function toldOf(boxId: string, box: CookedBox): Told[] {
  const kind = COOKING_EVENTS.find((each) => each === box.kind);
  if (!kind) return [];
  const detail = detailOf(kind, box);
  return [{ boxId, kind, ...(detail ? { detail } : {}) }];
}

function detailOf(kind: (typeof COOKING_EVENTS)[number], box: CookedBox): BoxEventDetail | null {
  if (kind === "not-cooked") return box.reason === "" ? null : { kind, reason: box.reason };
  if (kind === "cooked-as-drawn") return null;
  return {
    kind,
    differs: [...box.differs],
    grain: box.differs.includes("other-grain") && box.grain ? box.grain : null,
    cookMinutes: box.minutes.trim() === "" ? null : typedNumber(box.minutes),
  };
}
