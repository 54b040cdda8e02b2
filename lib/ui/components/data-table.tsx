import type { ReactNode } from "react";

export interface TableColumn {
  readonly key: string;
  readonly label: ReactNode;
  /** Right-aligned with figures of one width. */
  readonly numeric?: boolean;
}

export interface DataTableProps {
  readonly caption: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly Readonly<Record<string, ReactNode>>[];
}

/** A table whose first column names its rows. On a narrow screen it scrolls sideways inside itself. */
export function DataTable({ caption, columns, rows }: DataTableProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard (WCAG 2.1.1)
    <section className="relative mb-6 overflow-x-auto" aria-label={caption} tabIndex={0}>
      <table className="wrap-normal w-full border-collapse text-[0.97rem] tabular-nums">
        <caption className="pb-1 text-left text-[0.9375rem] text-quiet">
          <span className="sticky left-0 inline-block max-w-[calc(100vw-2.25rem)]">{caption}</span>
        </caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <th
                key={column.key}
                scope="col"
                className={`border-b-2 border-ink px-2 py-1.5 align-bottom font-semibold ${column.numeric ? "text-right" : "text-left"}`}
              >
                {column.label}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, r) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows are drawn once, in order
            <tr key={r}>
              {columns.map((column, c) =>
                c === 0 ? (
                  <th
                    key={column.key}
                    scope="row"
                    className="min-w-[8em] border-b border-line p-2 text-left font-semibold"
                  >
                    {row[column.key]}
                  </th>
                ) : (
                  <td
                    key={column.key}
                    className={`border-b border-line p-2 ${column.numeric ? "text-right" : "min-w-[8em] text-left"}`}
                  >
                    {row[column.key]}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
