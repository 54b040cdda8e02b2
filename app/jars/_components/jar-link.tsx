import { ButtonLink } from "@/lib/ui/components/button";
import { jarMessages } from "@/lib/ui/messages/en/jars";

/** The way from a recorded box, or a set of them, into a jar. */
export function JarLink({ boxIds }: { boxIds: readonly string[] }) {
  if (boxIds.length === 0) return null;
  return (
    <ButtonLink kind="quiet" href={`/jars/new?${new URLSearchParams(boxIds.map((id) => ["box", id]))}`}>
      {jarMessages.fromBox}
    </ButtonLink>
  );
}
