import { env } from "./env";
import { startJobs } from "./jobs/boss";
import { startMailRounds } from "./mail/rounds";

/** Brings up what the server needs beside its pages. A server that can't work ends here, with one line that says why. */
export async function startServer(): Promise<void> {
  try {
    env();
    await startJobs();
    startMailRounds();
  } catch (fault) {
    console.error(`Grainlot can't start. ${fault instanceof Error ? fault.message : String(fault)}`);
    process.exit(1);
  }
}
