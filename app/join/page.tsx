import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { Button } from "@/lib/ui/components/button";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { TextField } from "@/lib/ui/components/text-field";
import { joinMessages as words } from "@/lib/ui/messages/en/join";

export const metadata: Metadata = { title: words.joinWith };

/** A plain form: its code comes back in the address and leads on. */
export default async function JoinByCodePage({ searchParams }: { searchParams: Promise<{ code?: string }> }) {
  const { code } = await searchParams;
  if (typeof code === "string" && code.trim() !== "") redirect(`/join/${encodeURIComponent(code.trim())}`);
  return (
    <>
      <PageHeading title={words.joinWith} lead={words.joinWithLead} />
      <form action="/join" noValidate>
        <TextField
          name="code"
          label={words.code}
          error={code === undefined ? undefined : words.codeMissing}
          autoFocus={code !== undefined}
          required
          autoComplete="off"
          autoCapitalize="none"
        />
        <Button>{words.go}</Button>
      </form>
    </>
  );
}
