#!/usr/bin/env node
import { run } from "./run";

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
