const DAY = new Intl.DateTimeFormat("en-GB", {
  day: "numeric",
  month: "long",
  year: "numeric",
  timeZone: "UTC",
});
const MOMENT = new Intl.DateTimeFormat("en-GB", {
  day: "numeric",
  month: "long",
  year: "numeric",
  hour: "2-digit",
  minute: "2-digit",
  timeZone: "UTC",
});

/** A calendar date `YYYY-MM-DD` in words. */
export function dayWords(date: string): string {
  return DAY.format(new Date(`${date}T00:00:00Z`));
}

/** An instant as seen in UTC, which it says. */
export function momentWords(instant: Date): string {
  return `${MOMENT.format(instant)} UTC`;
}

/** A figure with a fixed number of decimals; a minus sign, not a hyphen, in front of a negative one. */
export function decimal(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace("-", "") : text.replace("-", "−");
}

/** A share (0–1) in per cent without decimals. */
export function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

/** Thousands set apart by a comma. */
export function whole(count: number): string {
  return count.toLocaleString("en-GB");
}
