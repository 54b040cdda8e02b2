import type { ReactNode } from "react";

export interface Fact {
  readonly label: string;
  readonly value: ReactNode;
}

/** Label and value, pair by pair. `prose`: values are sentences, too long to stand in bold. */
export function Facts({ items, prose }: { items: readonly Fact[]; prose?: boolean }) {
  return (
    <dl className="mb-6 max-w-[44em]">
      {items.map((item) => (
        <div key={item.label} className="grid gap-x-4 border-b border-line py-2 sm:grid-cols-[14em_1fr]">
          <dt className="text-quiet">{item.label}</dt>
          <dd className={prose ? undefined : "font-semibold"}>{item.value}</dd>
        </div>
      ))}
    </dl>
  );
}
