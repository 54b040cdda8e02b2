"use client";

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

const LOOK = [
  "wrap-normal w-full border-collapse text-[0.97rem] tabular-nums",
  "[&_thead_th]:border-b-2 [&_thead_th]:border-ink [&_thead_th]:px-2 [&_thead_th]:py-1.5 [&_thead_th]:align-bottom",
  "[&_th]:font-semibold [&_th]:text-left [&_th.n]:text-right [&_td]:text-right [&_td.t]:min-w-[8em] [&_td.t]:text-left",
  "[&_tbody_th]:min-w-[8em] [&_tbody_:is(th,td)]:border-b [&_tbody_:is(th,td)]:border-line [&_tbody_:is(th,td)]:p-2",
  "[&_caption]:pb-1 [&_caption]:text-left [&_caption]:text-[0.9375rem] [&_caption]:text-quiet",
  "[&_caption_span]:sticky [&_caption_span]:left-0 [&_caption_span]:inline-block",
  "[&_caption_span]:max-w-[calc(100vw-2.25rem)] [&_small]:block [&_small]:text-[0.9375rem] [&_small]:text-quiet [&_code]:font-mono",
].join(" ");

/**
 * A table of figures that looks like any other, written as text at once: a results page holds some 4,000 cells, and as
 * elements of their own they took the server most of its time. On a narrow screen it scrolls sideways inside itself.
 */
export function FigureTable({ caption, columns, rows }: Props) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard (WCAG 2.1.1)
    <section className="relative mb-6 overflow-x-auto" aria-label={caption} tabIndex={0}>
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: every text in it is escaped */}
      <table className={LOOK} dangerouslySetInnerHTML={{ __html: tableText(caption, columns, rows) }} />
    </section>
  );
}

function tableText(caption: string, columns: readonly FigureColumn[], rows: Props["rows"]): string {
  const head = columns.map(
    ({ label, numeric }) => `<th scope="col"${numeric ? ' class="n"' : ""}>${escaped(label)}</th>`,
  );
  const body = rows.map(
    (row) => `<tr>${columns.map((column, place) => cellText(column, row[column.key]!, place)).join("")}</tr>`,
  );
  return (
    `<caption><span>${escaped(caption)}</span></caption>` +
    `<thead><tr>${head.join("")}</tr></thead><tbody>${body.join("")}</tbody>`
  );
}

function cellText({ numeric, mono }: FigureColumn, cell: FigureCell, place: number): string {
  const text = typeof cell === "object" ? twoLines(cell) : escaped(String(cell));
  const said = mono ? `<code>${text}</code>` : text;
  if (place === 0) return `<th scope="row">${said}</th>`;
  return `<td${numeric ? "" : ' class="t"'}>${said}</td>`;
}

function twoLines({ figure, under }: TwoLines): string {
  return `<b>${escaped(figure)}</b>${under === null ? "" : `<small>${escaped(under)}</small>`}`;
}

const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

function escaped(text: string): string {
  return text.replaceAll(/[&<>"']/g, (sign) => ENTITIES[sign]!);
}
