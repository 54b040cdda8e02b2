/**
 * Drafts: what somebody has typed and not sent, kept on this phone over reloads, closed tabs and lost signal. A
 * draft's name says what it is of (`grade/<box id>`) and stands on pages of its owner only.
 */
const PREFIX = "grainlot-draft/";

export const draftKey = (name: string): string => PREFIX + name;

/** The draft as it was kept, or null: none there, or one that can't be read any more. */
export function readDraft(name: string): object | null {
  return parsed(localStorage.getItem(draftKey(name)));
}

/** False where this phone keeps nothing (a full or forbidden store); what is typed then lives as long as the page. */
export function keepDraft(name: string, draft: object): boolean {
  try {
    localStorage.setItem(draftKey(name), JSON.stringify(draft));
    return true;
  } catch {
    return false;
  }
}

export function dropDraft(name: string): void {
  localStorage.removeItem(draftKey(name));
}

export function dropAllDrafts(): void {
  for (const key of Object.keys(localStorage)) if (key.startsWith(PREFIX)) localStorage.removeItem(key);
}

/** What a `storage` event's text holds. */
export function parsed(text: string | null): object | null {
  try {
    const value: unknown = text === null ? null : JSON.parse(text);
    return typeof value === "object" ? value : null;
  } catch {
    return null;
  }
}
