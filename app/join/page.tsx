import type { Metadata } from "next";
import { headers } from "next/headers";
import { redirect } from "next/navigation";
import { typedCode } from "@/lib/auth/codes";
import { askedFrom } from "@/lib/auth/request-origin";
import { joinView } from "@/lib/services/growing/join";
import { reading } from "@/lib/services/run";
import { Button } from "@/lib/ui/components/button";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { TextField } from "@/lib/ui/components/text-field";
import { joinMessages as words } from "@/lib/ui/messages/en/join";
import { problemMessages } from "@/lib/ui/messages/en/problems";

export const metadata: Metadata = { title: words.joinWith };

/** A plain form: its code comes back in the address, and leads on if it is a trial's. */
export default async function JoinByCodePage({ searchParams }: { searchParams: Promise<{ code?: string }> }) {
  const { code: asked } = await searchParams;
  const code = typeof asked === "string" ? asked : "";
  const error = asked === undefined ? undefined : await followCode(typedCode(code));
  return (
    <>
      <PageHeading title={words.joinWith} lead={words.joinWithLead} />
      <form action="/join" noValidate>
        <TextField
          name="code"
          label={words.code}
          error={error}
          defaultValue={code}
          autoFocus={error !== undefined}
          required
          autoComplete="off"
          autoCapitalize="characters"
        />
        <Button>{words.go}</Button>
      </form>
    </>
  );
}

/** Goes to the trial's page, or gives what is wrong with the code. */
async function followCode(code: string): Promise<string> {
  if (code === "") return words.codeMissing;
  if (code.includes("\0")) return words.codeUnknown; // no text of the database's
  const from = askedFrom(await headers());
  const view = await reading((tx) => joinView(tx, null, code, from));
  if (view.ok) redirect(`/join/${encodeURIComponent(code)}`);
  if (view.reason === "NOT_FOUND") return words.codeUnknown;
  const { title, detail } = problemMessages.TOO_MANY_REQUESTS;
  return `${title} ${detail}`;
}
