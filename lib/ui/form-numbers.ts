/** A number as typed by hand, with a decimal comma or a true minus if need be; NaN when empty or no number. */
export function typedNumber(text: FormDataEntryValue | null): number {
  if (typeof text !== "string" || text.trim() === "") return Number.NaN;
  return Number(text.trim().replace(",", ".").replace("−", "-"));
}
