import { decimal, whole } from "@/lib/ui/format";
import { resultMessages as words } from "@/lib/ui/messages/en/results";

export type Reason = keyof typeof words.reason;

/** A figure with two decimals, or the sign for none. */
export function figure(value: number | null, decimals = 2): string {
  return value === null ? words.notThere : decimal(value, decimals);
}

/** With its sign, for differences. */
export function signed(value: number | null, decimals = 2): string {
  if (value === null) return words.notThere;
  const text = decimal(value, decimals);
  return Number(value.toFixed(decimals)) > 0 ? `+${text}` : text;
}

export function count(value: number | null): string {
  return value === null ? words.notThere : whole(value);
}

export interface Interval {
  readonly lower: number | null;
  readonly upper: number | null;
}

export function range({ lower, upper }: Interval, write: (end: number) => string = figure): string {
  return lower === null || upper === null ? words.notThere : words.range(write(lower), write(upper));
}

/** A p value with its sign: "p = 0.031", "p < 0.001". */
export function pWords(p: number): string {
  return p < 0.001 ? words.testPSmall : words.testP(decimal(p, 3));
}

/** A p value for a table's column. */
export function pFigure(p: number | null): string {
  if (p === null) return words.notThere;
  return p < 0.001 ? "<\u00a00.001" : decimal(p, 3);
}

/** A level such as 0.95 in per cent, with the decimals that tell it from 1. */
export function levelWords(level: number): string {
  return `${Number((level * 100).toFixed(level > 0.99 ? 2 : 1))}\u00a0%`;
}

/** Degrees of freedom; those that come out between whole numbers with one decimal while they are small. */
export function dfFigure(df: number | null): string {
  if (df === null) return words.notThere;
  return df < 100 && !Number.isInteger(df) ? decimal(df, 1) : whole(Math.round(df));
}

/** The reason in words; the sign for none where there is none. */
export function why(reason: Reason | null): string {
  return reason ? words.reason[reason] : words.notThere;
}

/** How many more sets, no more exactly than is known. */
export function aboutSets(sets: number): string {
  const step = sets <= 10 ? 1 : sets <= 50 ? 5 : sets <= 200 ? 10 : 50;
  return whole(Math.ceil(sets / step) * step);
}
