import { useEffect, useRef, useState } from "react";
import type { CheckMessage, CheckOutcome, CheckRequest } from "./check-ledger";

export type CheckState =
  | { readonly kind: "idle" }
  /** `draws` is null until the ledger has been read. */
  | { readonly kind: "running"; readonly checked: number; readonly draws: number | null }
  | { readonly kind: "done"; readonly outcome: CheckOutcome }
  /** The worker broke, or the browser would not start it. */
  | { readonly kind: "broken" };

/** Runs one check at a time in a worker; starting another, stopping or leaving the page ends it. */
export function useCheck() {
  const [state, setState] = useState<CheckState>({ kind: "idle" });
  const worker = useRef<Worker | null>(null);

  function end() {
    worker.current?.terminate();
    worker.current = null;
  }
  useEffect(() => () => worker.current?.terminate(), []);

  function start(request: CheckRequest) {
    end();
    setState({ kind: "running", checked: 0, draws: null });
    const started = new Worker(new URL("./ledger-worker.ts", import.meta.url), { type: "module" });
    worker.current = started;
    started.onmessage = ({ data }: MessageEvent<CheckMessage>) => {
      if (data.kind === "progress") {
        setState({ kind: "running", checked: data.checked, draws: data.draws });
        return;
      }
      end();
      setState(data.kind === "outcome" ? { kind: "done", outcome: data.outcome } : { kind: "broken" });
    };
    started.onerror = () => {
      end();
      setState({ kind: "broken" });
    };
    started.postMessage(request);
  }

  function stop() {
    end();
    setState({ kind: "idle" });
  }

  return { state, start, stop };
}
