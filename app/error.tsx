"use client";

import { faultMessages as words } from "@/lib/ui/messages/en/fault";

interface FaultProps {
  error: Error & { digest?: string };
  reset: () => void;
}

/** Plain, without the components of other pages, as every page carries it. */
export default function Fault({ error, reset }: FaultProps) {
  return (
    <>
      <h1>{words.title}</h1>
      <p className="my-4">{words.lead}</p>
      {error.digest ? <p className="my-4 font-mono">{words.reference(error.digest)}</p> : null}
      <button
        type="button"
        className="min-h-[54px] rounded-[5px] bg-act px-5 font-bold text-on-act"
        onClick={reset}
      >
        {words.again}
      </button>
    </>
  );
}
