/** A `datetime-local` text (`YYYY-MM-DDTHH:MM`) as ISO 8601 with this device's offset on that day; null when empty. */
export function withOffset(local: string): string | null {
  if (local === "") return null;
  const at = new Date(local);
  if (Number.isNaN(at.getTime())) return null;
  const eastMinutes = -at.getTimezoneOffset();
  const digits = (value: number) => String(value).padStart(2, "0");
  const sign = eastMinutes < 0 ? "-" : "+";
  const offset = Math.abs(eastMinutes);
  return `${local.slice(0, 16)}:00${sign}${digits(Math.floor(offset / 60))}:${digits(offset % 60)}`;
}

/** Now, as a `datetime-local` input shows it on this device. */
export function localNow(): string {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
}
