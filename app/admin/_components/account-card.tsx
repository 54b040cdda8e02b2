import type { AccountRow } from "@/lib/services/accounts/admin";
import { momentWords } from "@/lib/ui/format";
import { adminMessages as words } from "@/lib/ui/messages/en/admin";
import { changeLeading, changeSignIn } from "../actions";
import { SwitchForm } from "./switch-form";

/** One account with what an admin may change of it; nobody shuts themselves out. */
export function AccountCard({ account, isSelf }: { account: AccountRow; isSelf: boolean }) {
  const disabled = account.disabledAt !== null;
  const standing = [
    account.isAdmin ? words.admin : words.grower,
    ...(account.mayLead ? [words.mayLead] : []),
    ...(disabled ? [words.disabled] : []),
    ...(isSelf ? [words.you] : []),
  ];
  return (
    <li className="rounded-[5px] border-2 border-line p-3.5">
      <h2 className="break-words text-[1.125rem]">{account.name}</h2>
      <p className="text-quiet">
        {[standing.join(", "), words.since(momentWords(account.createdAt))].join(" · ")}
      </p>
      <div className="flex flex-wrap gap-x-6">
        {isSelf ? null : (
          <SwitchForm
            action={changeSignIn}
            account={account}
            allow={disabled}
            label={disabled ? words.enable : words.disable}
          />
        )}
        <SwitchForm
          action={changeLeading}
          account={account}
          allow={!account.mayLead}
          label={account.mayLead ? words.revokeLead : words.grantLead}
        />
      </div>
    </li>
  );
}
