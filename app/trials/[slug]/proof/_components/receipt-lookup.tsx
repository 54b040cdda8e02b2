import type { ReceiptStanding } from "@/lib/services/read-ledger";
import { Button } from "@/lib/ui/components/button";
import { Facts } from "@/lib/ui/components/facts";
import { Notice } from "@/lib/ui/components/notice";
import { TextField } from "@/lib/ui/components/text-field";
import { whole } from "@/lib/ui/format";
import { proofMessages as words } from "@/lib/ui/messages/en/proof";
import { Code } from "./code";

interface Props {
  readonly action: string;
  readonly typed: string;
  /** Null before anything was typed. */
  readonly standing: ReceiptStanding | null;
  readonly draws: number;
  readonly closed: boolean;
}

/** Finds the draw a receipt belongs to. A plain form, so that it works before the page's scripts do. */
export function ReceiptLookup({ action, typed, standing, draws, closed }: Props) {
  return (
    <>
      <form action={action} method="get">
        <TextField
          name="receipt"
          label={words.receiptField}
          hint={words.receiptHint}
          error={standing && !standing.ok ? words.receiptProblems[standing.reason] : undefined}
          defaultValue={typed}
          maxLength={100}
          autoComplete="off"
          autoCapitalize="none"
          spellCheck={false}
          className="font-mono"
          required
        />
        <Button kind="quiet">{words.receiptButton}</Button>
      </form>
      {standing?.ok ? <Standing standing={standing} draws={draws} closed={closed} /> : null}
    </>
  );
}

function Standing({
  standing: { number, algorithm, hash, stands },
  draws,
  closed,
}: Pick<Props, "draws" | "closed"> & { standing: Extract<ReceiptStanding, { ok: true }> }) {
  return (
    <div className="mt-5">
      {stands ? (
        <Notice kind="ok">
          <p>{words.receiptStands(whole(number), whole(draws))}</p>
          <p className="font-normal">{closed ? words.receiptThenCheck : words.receiptThenWait}</p>
        </Notice>
      ) : (
        <Notice kind="due">{words.receiptBroken(whole(number))}</Notice>
      )}
      <Facts
        items={[
          { label: words.receiptFull, value: <Code>{hash}</Code> },
          { label: words.receiptRule, value: <Code>{algorithm}</Code> },
        ]}
      />
    </div>
  );
}
