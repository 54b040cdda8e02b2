/** The page an address asks for, from 1; whatever isn't a page is the first. */
export function pageNumber(asked: string | string[] | undefined): number {
  const page = Number(asked);
  return Number.isInteger(page) && page >= 1 && page <= 10_000 ? page : 1;
}
