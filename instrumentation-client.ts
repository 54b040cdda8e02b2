import { nowWaiting } from "@/lib/ui/waiting";

/** Called by Next.js when the way to another page begins. */
export function onRouterTransitionStart(url: string): void {
  const next = new URL(url, location.href);
  if (next.pathname !== location.pathname || next.search !== location.search) nowWaiting();
}
