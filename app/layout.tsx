import "@fontsource-variable/atkinson-hyperlegible-mono/wght.css";
import "@fontsource-variable/atkinson-hyperlegible-next/wght.css";
import "./globals.css";
import type { Metadata, Viewport } from "next";
import Link from "next/link";
import { connection } from "next/server";
import type { ReactNode } from "react";
import { currentActor, isOnBorrowedPhone } from "@/lib/auth/session";
import { env } from "@/lib/env";
import { BoxGlyphPatterns } from "@/lib/ui/components/box-glyph-patterns";
import { InPageLinks } from "@/lib/ui/components/in-page-links";
import { SiteHeader } from "@/lib/ui/components/site-header";
import { Waiting } from "@/lib/ui/components/waiting";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { commonMessages } from "@/lib/ui/messages/en/common";
import { BorrowedPhone } from "./_components/borrowed-phone";

export const metadata: Metadata = {
  title: { default: commonMessages.name, template: `%s · ${commonMessages.name}` },
  description: commonMessages.description,
  formatDetection: { telephone: false, address: false, email: false },
};

export const viewport: Viewport = {
  themeColor: [
    { media: "(prefers-color-scheme: light)", color: "#ffffff" },
    { media: "(prefers-color-scheme: dark)", color: "#0e1618" },
  ],
};

export default async function RootLayout({ children }: { children: ReactNode }) {
  await connection(); // every page is made for its request: its scripts carry that request's nonce
  const actor = await currentActor();
  return (
    <html lang="en">
      <body className="flex min-h-dvh flex-col">
        <a
          href="#content"
          className="absolute left-2 top-2 z-10 -translate-y-20 rounded-[5px] bg-act px-4 py-2.5 font-bold text-on-act focus:translate-y-0"
        >
          {commonMessages.skip}
        </a>
        <InPageLinks />
        <Waiting words={commonMessages.waiting} />
        <BoxGlyphPatterns />
        <SiteHeader actor={actor} />
        <BorrowedPhone borrowed={await isOnBorrowedPhone()} words={accountMessages.borrowed} />
        <main
          id="content"
          tabIndex={-1}
          className="mx-auto w-full max-w-[76rem] flex-1 px-[18px] py-6 lg:px-9"
        >
          {children}
        </main>
        <footer className="border-t border-line">
          <div className="mx-auto flex max-w-[76rem] flex-wrap items-center gap-x-6 px-[18px] py-3 text-[0.9375rem] text-quiet lg:px-9">
            {env().GRAINLOT_MODE === "demo" ? <p>{commonMessages.footer.demo}</p> : null}
            <Link href="/health" className="inline-flex min-h-[44px] items-center text-quiet underline">
              {commonMessages.footer.health}
            </Link>
          </div>
        </footer>
      </body>
    </html>
  );
}
