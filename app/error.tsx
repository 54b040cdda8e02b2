"use client";

import { Button } from "@/lib/ui/components/button";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { faultMessages as words } from "@/lib/ui/messages/en/fault";

interface FaultProps {
  error: Error & { digest?: string };
  reset: () => void;
}

export default function Fault({ error, reset }: FaultProps) {
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      {error.digest ? <p className="mb-5 font-mono">{words.reference(error.digest)}</p> : null}
      <Button type="button" onClick={reset}>
        {words.again}
      </Button>
    </>
  );
}
