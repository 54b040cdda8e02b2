import { adminMessages as words } from "@/lib/ui/messages/en/admin";

interface Props {
  readonly action: (form: FormData) => Promise<void>;
  readonly account: { readonly id: string; readonly name: string };
  /** What pressing sets. */
  readonly allow: boolean;
  readonly label: string;
}

/** One button that allows or forbids something to one account. */
export function SwitchForm({ action, account, allow, label }: Props) {
  return (
    <form action={action}>
      <input type="hidden" name="accountId" value={account.id} />
      <input type="hidden" name="allowed" value={allow ? "yes" : "no"} />
      <button type="submit" className="min-h-[44px] cursor-pointer font-bold text-act underline">
        {label}
        <span className="sr-only">{words.whom(account.name)}</span>
      </button>
    </form>
  );
}
