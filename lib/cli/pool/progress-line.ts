import type { Progress } from "../table/file-lines";

/** Shown from this long on, and as often. */
const EVERY_MS = 200;
const MB = 1024 * 1024;
const CLEAR_LINE = "\r\u001b[K";

export interface ProgressLine {
  readonly update: Progress;
  /** Shows what is done next, however long it takes. */
  readonly say: (words: string) => void;
  /** Takes the line away. */
  readonly end: () => void;
}

/** One line on a terminal that tells how far the command is; nothing is written where `terminal` is undefined. */
export function progressLine(terminal: ((text: string) => void) | undefined): ProgressLine {
  let shownAt = performance.now();
  let isShown = false;
  return {
    update(bytesRead, bytesInFile) {
      if (!terminal || performance.now() - shownAt < EVERY_MS) return;
      shownAt = performance.now();
      isShown = true;
      const share = bytesInFile > 0 ? `, ${Math.floor((100 * bytesRead) / bytesInFile)} %` : "";
      terminal(`${CLEAR_LINE}reading: ${Math.floor(bytesRead / MB)} MB${share}`);
    },
    say(words) {
      if (!terminal) return;
      isShown = true;
      terminal(`${CLEAR_LINE}${words}`);
    },
    end() {
      if (isShown) terminal?.(CLEAR_LINE);
    },
  };
}
