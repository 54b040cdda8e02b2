import "./figure-table.css";

/** A figure with its interval under it. */
export interface TwoLines {
  readonly figure: string;
  readonly under: string | null;
}

export type FigureCell = string | number | TwoLines;

export interface FigureColumn {
  readonly key: string;
  readonly label: string;
  /** Right-aligned with figures of one width. */
  readonly numeric?: boolean;
  /** In the type of codes. */
  readonly mono?: boolean;
}

interface Props {
  readonly caption: string;
  readonly columns: readonly FigureColumn[];
  readonly rows: readonly Readonly<Record<string, FigureCell>>[];
}

/**
 * A table of figures that looks like any other. Its look is by rules on the whole table: a results page holds some
 * 4,000 cells, and classes on each would be most of the page. On a narrow screen it scrolls sideways inside itself.
 */
export function FigureTable({ caption, columns, rows }: Props) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard (WCAG 2.1.1)
    <section className="relative mb-6 overflow-x-auto" aria-label={caption} tabIndex={0}>
      <table className="figures">
        <caption>
          <span>{caption}</span>
        </caption>
        <thead>
          <tr>
            {columns.map(({ key, label, numeric }) => (
              <th key={key} scope="col" className={numeric ? "n" : undefined}>
                {label}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, place) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows are drawn once, in order
            <tr key={place}>
              {columns.map((column, place) => (
                <Cell key={column.key} column={column} cell={row[column.key]!} names={place === 0} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** The first of a row names it. */
function Cell({ column, cell, names }: { column: FigureColumn; cell: FigureCell; names: boolean }) {
  const text = typeof cell === "object" ? <FigureOverInterval {...cell} /> : cell;
  const said = column.mono ? <code>{text}</code> : text;
  if (names) return <th scope="row">{said}</th>;
  return <td className={column.numeric ? undefined : "t"}>{said}</td>;
}

function FigureOverInterval({ figure, under }: TwoLines) {
  return (
    <>
      <b>{figure}</b>
      {under === null ? null : <small>{under}</small>}
    </>
  );
}
