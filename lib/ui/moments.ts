/**
 * A `datetime-local` text (`YYYY-MM-DDTHH:MM`) as ISO 8601 with this device's offset on that day; null when empty or no
 * time. An hour that clocks skip in spring is taken as the one after; of an hour they go through twice, the first.
 */
export function withOffset(local: string): string | null {
  const at = new Date(local);
  if (local === "" || Number.isNaN(at.getTime())) return null;
  const eastMinutes = -at.getTimezoneOffset();
  const digits = (value: number) => String(value).padStart(2, "0");
  const sign = eastMinutes < 0 ? "-" : "+";
  const offset = Math.abs(eastMinutes);
  return `${localText(at)}:00${sign}${digits(Math.floor(offset / 60))}:${digits(offset % 60)}`;
}

/** Now, as a `datetime-local` input shows it on this device. */
export function localNow(): string {
  return localText(new Date());
}

function localText(at: Date): string {
  return new Date(at.getTime() - at.getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
}
