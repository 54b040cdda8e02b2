import type { ReactNode } from "react";

export interface GrowthTableCell {
  /** Mean growth 0–4; null where there is none. */
  readonly mean: number | null;
  /** What stands in the cell. */
  readonly text: ReactNode;
  readonly isBest: boolean;
}

export interface GrowthTableProps {
  readonly caption: string;
  readonly corner: string;
  readonly columns: readonly string[];
  readonly rows: readonly { readonly name: string; readonly cells: readonly GrowthTableCell[] }[];
}

/** Numbers in a table, each on the brown or white of its nearest class of growth; the best of a column underlined. */
export function GrowthTable({ caption, corner, columns, rows }: GrowthTableProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard (WCAG 2.1.1)
    <section className="relative mb-4 overflow-x-auto" aria-label={caption} tabIndex={0}>
      <table className="wrap-normal border-separate border-spacing-[3px] text-[0.97rem] tabular-nums">
        <caption className="pb-1 text-left text-[0.9375rem] text-quiet">
          <span className="sticky left-0 inline-block max-w-[calc(100vw-2.25rem)]">{caption}</span>
        </caption>
        <thead>
          <tr>
            <th scope="col" className="px-1 py-1.5 text-left align-bottom font-semibold">
              {corner}
            </th>
            {columns.map((column) => (
              <th
                key={column}
                scope="col"
                className="max-w-[9em] px-1 py-1.5 text-left align-bottom font-semibold"
              >
                {column}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, cells }) => (
            <tr key={name}>
              <th scope="row" className="min-w-[8em] px-1 py-2 text-left font-semibold">
                {name}
              </th>
              {cells.map((cell, place) => (
                <td
                  key={columns[place]}
                  className={`min-w-[5.5em] rounded-[3px] border-2 px-2 py-2 ${shade(cell.mean)} ${cell.isBest ? "font-bold underline decoration-2 underline-offset-4" : ""}`}
                >
                  {cell.text}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** Of the five classes only, so that figures keep their contrast on every shade. As classes: the page allows no styles in attributes. */
const SHADES = [
  "border-[var(--box-line)] bg-[var(--growth-0)] text-[#fff]",
  "border-[var(--box-line)] bg-[var(--growth-1)] text-[#fff]",
  "border-[var(--box-line)] bg-[var(--growth-2)] text-[#13252b]",
  "border-[var(--box-line)] bg-[var(--growth-3)] text-[#13252b]",
  "border-[var(--box-line)] bg-[var(--growth-4)] text-[#13252b]",
] as const;

function shade(mean: number | null): string {
  if (mean === null) return "border-line";
  return SHADES[Math.min(4, Math.max(0, Math.round(mean)))]!;
}
