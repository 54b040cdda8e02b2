import { spawn } from "node:child_process";
import { expect, it } from "vitest";
import { isAlive, isServing } from "@/lib/launch/processes.mjs";

it.runIf(process.platform === "linux")("takes a zombie for dead, though a signal reaches it", async () => {
  // The shell's child ends at once; the program that the shell becomes never asks after it.
  const parent = spawn("/bin/sh", ["-c", "sleep 0 & echo $!; exec sleep 30"]);
  try {
    const zombie = Number(await new Promise((resolve) => parent.stdout.once("data", resolve)));
    await expect.poll(() => isAlive(zombie), { timeout: 5_000 }).toBe(false);
    expect(process.kill(zombie, 0)).toBe(true);
    expect(isServing(zombie, "/")).toBe(false);
    expect(isAlive(parent.pid ?? 0)).toBe(true);
  } finally {
    parent.kill();
  }
});
