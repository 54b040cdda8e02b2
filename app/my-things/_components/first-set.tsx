import { ButtonLink } from "@/lib/ui/components/button";
import { BoxCautions } from "@/lib/ui/components/cautions";
import { myThingsMessages as words } from "@/lib/ui/messages/en/my-things";

interface Props {
  /** Where to begin. */
  readonly start: { readonly href: string; readonly words: string };
}

/** For somebody without any set of boxes: what it comes to, and where to begin. */
export function FirstSet({ start }: Props) {
  return (
    <section className="mb-9 max-w-[44em]">
      <h2 className="mb-2">{words.firstTitle}</h2>
      <ol className="mb-4 list-decimal space-y-1.5 pl-8">
        {words.first.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ol>
      <BoxCautions />
      <ButtonLink href={start.href}>{start.words}</ButtonLink>
    </section>
  );
}
