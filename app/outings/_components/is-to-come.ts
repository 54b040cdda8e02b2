/** Whether a day `YYYY-MM-DD` is still to come; one that is not known may have come. */
export function isToCome(day: string | null): boolean {
  return day !== null && day > new Date().toISOString().slice(0, 10);
}
