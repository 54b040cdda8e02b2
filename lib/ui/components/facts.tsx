import type { ReactNode } from "react";

export interface Fact {
  readonly label: string;
  readonly value: ReactNode;
}

/** Label and value, pair by pair. */
export function Facts({ items }: { items: readonly Fact[] }) {
  return (
    <dl className="mb-6 max-w-[44em]">
      {items.map((item) => (
        <div key={item.label} className="grid gap-x-4 border-b border-line py-2 sm:grid-cols-[14em_1fr]">
          <dt className="text-quiet">{item.label}</dt>
          <dd className="font-semibold">{item.value}</dd>
        </div>
      ))}
    </dl>
  );
}
