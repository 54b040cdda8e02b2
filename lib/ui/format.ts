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

const PLACE_MOMENT = new Intl.DateTimeFormat("en-GB", {
  weekday: "short",
  day: "numeric",
  month: "short",
  hour: "2-digit",
  minute: "2-digit",
  timeZone: "UTC",
});

/** An instant as the clock showed it where it was noted; the offset in minutes east of UTC. */
export function placeMomentWords(instant: Date, offsetMinutes: number): string {
  return PLACE_MOMENT.format(new Date(instant.getTime() + offsetMinutes * 60_000));
}

const WEEKDAY = new Intl.DateTimeFormat("en-GB", {
  weekday: "short",
  day: "numeric",
  month: "short",
  timeZone: "UTC",
});

/** A calendar date `YYYY-MM-DD` near today, with its weekday and without the year. */
export function weekdayWords(date: string): string {
  return WEEKDAY.format(new Date(`${date}T00:00:00Z`));
}

/** A figure with a fixed number of decimals; a minus sign, not a hyphen, in front of a negative one. */
export function decimal(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace("-", "") : text.replace("-", "−");
}

/** A share (0–1) in per cent without decimals. */
export function percent(share: number): string {
  return `${Math.round(share * 100)}\u00a0%`;
}

/** Thousands set apart by a comma. */
export function whole(count: number): string {
  return count.toLocaleString("en-GB");
}
