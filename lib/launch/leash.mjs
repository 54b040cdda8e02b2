// Loaded into the web server before anything else (`node --import`): the server ends when the process that
// started it is gone, however that went. The other end of standard input says so.
const graceMs = 5_000;

process.stdin.on("error", leave);
process.stdin.on("close", leave);
process.stdin.resume();
/** @type {import("node:net").Socket} */ (process.stdin).unref?.();

function leave() {
  setTimeout(() => process.exit(1), graceMs).unref();
  process.kill(process.pid, "SIGTERM");
}
