import type { OutingView } from "@/lib/services/growing/outing-view";
import { Notice } from "@/lib/ui/components/notice";
import { setMessages } from "@/lib/ui/messages/en/sets";

const words = setMessages.outing;

/** That the recipes of a set given up earlier come back in this one, and how far they could. */
export function ReturnedSet({ outing: { returned } }: { outing: OutingView }) {
  if (!returned) return null;
  const { code, owed, kept } = returned;
  if (kept === null) return <Notice kind="info">{words.comesBack(code)}</Notice>;
  return (
    <Notice kind="info">{kept === owed ? words.cameBack(code) : words.cameBackPart(code, kept, owed)}</Notice>
  );
}
