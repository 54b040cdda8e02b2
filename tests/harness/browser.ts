import { type Browser, chromium } from "playwright-core";
import { inject } from "vitest";
import { browserArguments } from "./find-browser";

/** Starts the browser that this run found; the caller closes it. */
export function launchBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: inject("browserPath"), args: browserArguments });
}
