const ASK_AGAIN_AFTER_MS = 3000;
/** A script that stays missing from a server that answers went with another version of it: the page is loaded again. */
const TRIES_WITH_ANSWER = 3;

/** Comes after the page, so that the first question stands sooner. */
export const loadOpenedSteps = () => untilItComes(() => import("./opened-steps"));

/** Likewise. */
export const loadSending = () => untilItComes(() => import("./send-grade"));

/** Without signal it is asked for again and again; what is typed stays on the phone all the while. */
async function untilItComes<Module>(load: () => Promise<Module>): Promise<Module> {
  for (let inVain = 0; ; ) {
    try {
      return await load();
    } catch {
      if (await serverAnswers()) inVain += 1;
      if (inVain === TRIES_WITH_ANSWER) location.reload();
      await new Promise((resolve) => setTimeout(resolve, ASK_AGAIN_AFTER_MS));
    }
  }
}

const serverAnswers = () =>
  fetch("/api/health", { method: "HEAD" }).then(
    ({ ok }) => ok,
    () => false,
  );
