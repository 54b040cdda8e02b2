"use client";

import "./globals.css";
import { faultMessages as words } from "@/lib/ui/messages/en/fault";

interface FaultProps {
  error: Error & { digest?: string };
  reset: () => void;
}

/** Stands in for the whole page when even the frame can't be drawn; plain, as every page carries it. */
export default function GlobalFault({ error, reset }: FaultProps) {
  return (
    <html lang="en">
      <head>
        <title>{words.title}</title>
      </head>
      <body>
        <main className="p-6">
          <h1>{words.title}</h1>
          <p className="my-4">{words.lead}</p>
          {error.digest ? <p>{words.reference(error.digest)}</p> : null}
          <button type="button" className="bg-act p-4 font-bold text-on-act" onClick={reset}>
            {words.again}
          </button>
        </main>
      </body>
    </html>
  );
}
