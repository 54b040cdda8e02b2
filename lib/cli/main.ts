#!/usr/bin/env node
import { setFlagsFromString } from "node:v8";
import { run } from "./run";

// A pool is over in a second or two, each of its loops hot for some milliseconds: V8's compiler takes as long as the
// code it makes. Smaller pieces of code cost about an eighth less processor time at 100,000 boxes. Measured with
// Node 20; another V8 may not know the flags and would say so on stderr.
if (process.argv[2] === "pool" && process.version.startsWith("v20.")) {
  setFlagsFromString("--max-inlined-bytecode-size-cumulative=300");
  setFlagsFromString("--no-turbo-loop-peeling");
}

// A reader that has seen enough (`| head`) closes the pipe; that is no fault of ours.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
  process.exit(0);
});

run(process.argv.slice(2), {
  stdout: (text) => process.stdout.write(text),
  stderr: (text) => process.stderr.write(text),
  ...(process.stderr.isTTY ? { terminal: (text: string) => process.stderr.write(text) } : {}),
  directory: process.cwd(),
}).then((exitCode) => {
  process.exitCode = exitCode;
});
