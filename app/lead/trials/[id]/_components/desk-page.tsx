import Link from "next/link";
import type { ReactNode } from "react";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { deskMessages as words } from "@/lib/ui/messages/en/desk";

interface Props {
  readonly trial: { readonly id: string; readonly title: string };
  readonly title: string;
  readonly lead?: string;
  readonly children: ReactNode;
}

/** A page of a trial's desk: whose trial it is, and the way back. */
export function DeskPage({ trial, title, lead, children }: Props) {
  return (
    <>
      <p className="mb-1 text-quiet">{trial.title}</p>
      <PageHeading title={title} lead={lead} />
      {children}
      <p className="mt-8">
        <Link href={`/lead/trials/${trial.id}`} className="inline-flex min-h-[44px] items-center">
          {words.back}
        </Link>
      </p>
    </>
  );
}
