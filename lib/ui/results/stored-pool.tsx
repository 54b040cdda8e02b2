import type { ReactNode } from "react";
import { DrawnOnce } from "@/lib/ui/components/drawn-once";
import { resultMessages as words } from "@/lib/ui/messages/en/results";
import type { PoolResult } from "@/shared/schemas/pool";
import type { ResultsTrial } from "./context";
import { OpenLinked } from "./open-linked";
import { PoolView } from "./pool-view";

interface Props {
  trial: ResultsTrial;
  stored: {
    /** Of no other result: it stands for the result in the name of what is drawn. */
    readonly resultName: string;
    readonly result: PoolResult;
    readonly computedAt: Date;
    readonly newerWanted: boolean;
    readonly ownGroups?: readonly string[];
  };
  /** Links to what can be taken along. */
  downloads: ReactNode;
}

/** A stored result, drawn once for all readers who see the same. */
export function StoredPool({ trial, stored, downloads }: Props) {
  const { resultName, result, computedAt, newerWanted, ownGroups = [] } = stored;
  const seen = { trial, computedAt, newerWanted, ownGroups };
  return (
    <>
      <OpenLinked />
      <DrawnOnce of={JSON.stringify({ resultName, ...seen })}>
        <PoolView result={result} {...seen} />
      </DrawnOnce>
      <h3 className="mb-1">{words.downloads.title}</h3>
      {downloads}
    </>
  );
}
