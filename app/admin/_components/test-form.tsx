"use client";

import { EmailField } from "@/lib/ui/components/account-fields";
import { ActionForm } from "@/lib/ui/components/action-form";
import { adminMessages } from "@/lib/ui/messages/en/admin";
import { sendTest } from "../actions";

const words = adminMessages.test;

export function TestForm() {
  return (
    <section className="mb-8 max-w-[44em]">
      <h2>{words.title}</h2>
      <p className="mb-3 text-quiet">{words.lead}</p>
      <ActionForm action={sendTest} words={words.outcomes} submit={words.submit} kind="quiet">
        {(state) => <EmailField state={state} />}
      </ActionForm>
    </section>
  );
}
