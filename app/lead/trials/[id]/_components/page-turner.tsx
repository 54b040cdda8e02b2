import Link from "next/link";
import { deskMessages as words } from "@/lib/ui/messages/en/desk";

interface Props {
  /** The address of a page. */
  readonly hrefOf: (page: number) => string;
  readonly page: number;
  readonly hasMore: boolean;
  /** Where the number of pages is known. */
  readonly pages?: number;
}

/** One page forth or back; nothing where there is one page only. */
export function PageTurner({ hrefOf, page, hasMore, pages }: Props) {
  if (page === 1 && !hasMore) return null;
  return (
    <p className="my-4 flex flex-wrap items-center gap-x-6">
      {page > 1 ? <Turn href={hrefOf(page - 1)}>{words.newer}</Turn> : null}
      {pages ? <span className="text-quiet">{words.pageOf(page, pages)}</span> : null}
      {hasMore ? <Turn href={hrefOf(page + 1)}>{words.older}</Turn> : null}
    </p>
  );
}

function Turn({ href, children }: { href: string; children: string }) {
  return (
    <Link href={href} className="inline-flex min-h-[44px] items-center">
      {children}
    </Link>
  );
}
