"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { ButtonLink } from "@/lib/ui/components/button";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { signInToDemo } from "../actions";

const { outcomes, signIn: words } = accountMessages;

export function DemoSignIns({ roles, next }: { roles: readonly string[]; next: string }) {
  return (
    <section className="mt-10 max-w-[44em] border-t border-line pt-5">
      <h2>{words.demo}</h2>
      <p className="mb-3 text-quiet">{words.demoLead}</p>
      <ul className="flex flex-wrap gap-3">
        {roles.map((role) => (
          <li key={role}>
            <ActionForm
              action={signInToDemo}
              words={outcomes}
              submit={words.demoRoles[role] ?? role}
              kind="quiet"
            >
              {() => (
                <>
                  <input type="hidden" name="role" value={role} />
                  <input type="hidden" name="next" value={next} />
                </>
              )}
            </ActionForm>
          </li>
        ))}
        <li>
          <ButtonLink href="/trials" kind="quiet">
            {words.demoReader}
          </ButtonLink>
        </li>
      </ul>
    </section>
  );
}
