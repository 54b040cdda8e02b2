"use client";

import "./globals.css";
import { faultMessages } from "@/lib/ui/messages/en/fault";
import Fault from "./error";

/** Stands in for the whole page when even the frame can't be drawn, so it brings its own. */
export default function GlobalFault(props: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <html lang="en">
      <head>
        <title>{faultMessages.title}</title>
      </head>
      <body>
        <main className="mx-auto max-w-[76rem] px-[18px] py-6">
          <Fault {...props} />
        </main>
      </body>
    </html>
  );
}
