import { commonMessages } from "@/lib/ui/messages/en/common";
import { Caution } from "./caution";

/** The trade's cautions that belong before joining and before opening a box. */
export function BoxCautions() {
  const words = commonMessages.cautions;
  return (
    <Caution title={words.title}>
      <p>{words.mould}</p>
      <p>{words.health}</p>
      <p>{words.land}</p>
      <p>{words.deference}</p>
    </Caution>
  );
}
