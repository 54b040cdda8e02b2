import { Caution } from "@/lib/ui/components/caution";
import { jarMessages } from "@/lib/ui/messages/en/jars";

export function JarCautions() {
  return (
    <Caution title={jarMessages.cautionTitle}>
      {jarMessages.caution.map((text) => (
        <p key={text}>{text}</p>
      ))}
    </Caution>
  );
}
