import { type CheckMessage, type CheckRequest, checkLedger } from "./check-ledger";

const post = (message: CheckMessage) => self.postMessage(message);

// The check runs beside the page, which stays responsive and can end it.
self.onmessage = async ({ data }: MessageEvent<CheckRequest>) => {
  try {
    const outcome = await checkLedger(data, (checked, draws) => post({ kind: "progress", checked, draws }));
    post({ kind: "outcome", outcome });
  } catch (error) {
    console.error(error);
    post({ kind: "broken" });
  }
};
