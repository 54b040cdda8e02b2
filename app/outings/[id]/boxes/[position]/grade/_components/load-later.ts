const ASK_AGAIN_AFTER_MS = 3000;

/** Comes after the page, so that the first question stands sooner. */
export const loadOpenedSteps = () => untilItComes(() => import("./opened-steps"));

/** Likewise. */
export const loadSending = () => untilItComes(() => import("./send-grade"));

/** Without signal it is asked for again and again. */
async function untilItComes<Module>(load: () => Promise<Module>): Promise<Module> {
  for (;;) {
    try {
      return await load();
    } catch {
      await new Promise((resolve) => setTimeout(resolve, ASK_AGAIN_AFTER_MS));
    }
  }
}
