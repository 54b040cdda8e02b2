import { whole } from "@/lib/ui/format";

export interface Count {
  readonly label: string;
  readonly count: number;
}

/** Labels with their counts, two abreast unless `stacked`: nothing has to be scrolled sideways on a phone. */
export function CountList({ items, stacked }: { items: readonly Count[]; stacked?: boolean }) {
  return (
    <dl className={`grid gap-x-5 tabular-nums ${stacked ? "" : "grid-cols-2"}`}>
      {items.map(({ label, count }) => (
        <div key={label} className="flex justify-between gap-2 border-b border-line py-1">
          <dt>{label}</dt>
          <dd className="font-semibold">{whole(count)}</dd>
        </div>
      ))}
    </dl>
  );
}
