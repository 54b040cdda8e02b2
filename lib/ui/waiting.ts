const ASKED = "grainlot-asked";
const CAME = "grainlot-came";

/** Something was asked of the server that somebody waits for. */
export const nowWaiting = (): boolean => dispatchEvent(new Event(ASKED));

/** It has come, or will not. */
export const doneWaiting = (): boolean => dispatchEvent(new Event(CAME));

/** Calls back at the beginning and the end of waiting, until the function it gives is called. */
export function onWaiting(tell: (isWaiting: boolean) => void): () => void {
  const asked = () => tell(true);
  const came = () => tell(false);
  addEventListener(ASKED, asked);
  addEventListener(CAME, came);
  return () => {
    removeEventListener(ASKED, asked);
    removeEventListener(CAME, came);
  };
}
