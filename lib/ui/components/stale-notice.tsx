"use client";

import { useEffect, useRef } from "react";
import type { SentProblem } from "../send";
import { Button } from "./button";
import { Notice } from "./notice";

/** Refusals that say: what stands is not what this was begun from. */
const STALE_REASONS = ["CHANGED_MEANWHILE", "ID_USED_FOR_OTHER_CONTENT"];

export const isStaleRefusal = ({ reason }: SentProblem): boolean => STALE_REASONS.includes(reason);

interface Props {
  readonly words: {
    /** That what this was begun from has changed. */
    readonly stale: string;
    readonly keepMine: string;
    readonly takeStanding: string;
  };
  /** What stands now, in words; null where that isn't said. */
  readonly standing: string | null;
  readonly onKeepMine: () => void;
  readonly onTakeStanding: () => void;
}

/** Somebody changed what these answers were begun from: nothing typed goes unless its author says so. Takes focus. */
export function StaleNotice({ words, standing, onKeepMine, onTakeStanding }: Props) {
  const notice = useRef<HTMLDivElement>(null);
  useEffect(() => notice.current?.focus(), []);
  return (
    <div ref={notice} tabIndex={-1}>
      <Notice kind="due">
        <p>{words.stale}</p>
        <p className="font-normal">{standing}</p>
        <p className="mt-2 flex flex-wrap gap-2.5">
          <Button type="button" onClick={onKeepMine}>
            {words.keepMine}
          </Button>
          <Button type="button" kind="quiet" onClick={onTakeStanding}>
            {words.takeStanding}
          </Button>
        </p>
      </Notice>
    </div>
  );
}
