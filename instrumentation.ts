/** Next calls this once, before the server takes its first request. */
export async function register(): Promise<void> {
  if (process.env.NEXT_RUNTIME !== "nodejs") return;
  const { env } = await import("@/lib/env");
  env();
  const { startJobs } = await import("@/lib/jobs/boss");
  await startJobs();
  const { startMailRounds } = await import("@/lib/mail/rounds");
  startMailRounds();
}
