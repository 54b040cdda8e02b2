"use client";

import Link from "next/link";
import { usePathname } from "next/navigation";
import type { ReactNode } from "react";

/** A link of the main navigation that says when its part of the site is the current one. */
export function NavLink({ href, children }: { href: string; children: ReactNode }) {
  const path = usePathname();
  const current = path === href ? "page" : path.startsWith(`${href}/`) ? "true" : undefined;
  return (
    <Link
      href={href}
      aria-current={current}
      className="inline-flex min-h-[44px] items-center px-1 text-ink no-underline hover:underline aria-[current]:underline sm:aria-[current]:font-bold aria-[current]:decoration-2 aria-[current]:underline-offset-4"
    >
      {children}
    </Link>
  );
}
