import Link from "next/link";
import { Facts } from "@/lib/ui/components/facts";
import { setMessages } from "@/lib/ui/messages/en/sets";
import type { DrawReceipt } from "@/shared/schemas/draw";

const words = setMessages.outing;

/** The receipt a grower keeps, to show later that the draw still stands as it was made. */
export function Proof({ receipt, slug }: { receipt: DrawReceipt; slug: string }) {
  const mono = (text: string) => <span className="break-all font-mono">{text}</span>;
  return (
    <>
      <p className="mb-3 max-w-[44em] text-quiet">{words.proofLead}</p>
      <Facts
        items={[
          { label: words.proof.number, value: String(receipt.number) },
          { label: words.proof.short, value: mono(receipt.shortHash) },
          { label: words.proof.hash, value: mono(receipt.hash) },
          { label: words.proof.previous, value: mono(receipt.previousHash) },
          { label: words.proof.seal, value: mono(receipt.seal) },
          { label: words.proof.algorithm, value: mono(receipt.algorithm) },
        ]}
      />
      <p>
        <Link href={`/trials/${slug}/proof?receipt=${receipt.shortHash}#receipt`}>{words.proofCheck}</Link>
      </p>
    </>
  );
}
