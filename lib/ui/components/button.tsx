import Link from "next/link";
import type { ComponentProps, ReactNode } from "react";

const SHAPE =
  "inline-flex min-h-[54px] items-center justify-center rounded-[5px] border-2 border-act px-5 text-center font-bold no-underline disabled:cursor-not-allowed disabled:opacity-60";
const LOOK = { main: "bg-act text-on-act", quiet: "bg-transparent text-act" } as const;

type Kind = keyof typeof LOOK;

function look(kind: Kind, className: string | undefined): string {
  return className ? `${SHAPE} ${LOOK[kind]} ${className}` : `${SHAPE} ${LOOK[kind]}`;
}

/** `main` is the one thing to do next; `quiet` everything else. */
export function Button({
  kind = "main",
  type = "submit",
  className,
  ...rest
}: { kind?: Kind } & ComponentProps<"button">) {
  return <button type={type} className={look(kind, className)} {...rest} />;
}

/** A link that looks like a button, for a next step that is a page. */
export function ButtonLink({
  href,
  kind = "main",
  className,
  children,
}: {
  href: string;
  kind?: Kind;
  className?: string;
  children: ReactNode;
}) {
  return (
    <Link href={href} data-button="" className={look(kind, className)}>
      {children}
    </Link>
  );
}
