import { readFile } from "node:fs/promises";
import { z } from "zod";
import type { Claims } from "@/lib/auth/claims";
import { checkSignIn } from "@/lib/auth/sign-in";
import type { Transaction } from "@/lib/data/client";
import { env } from "@/lib/env";
import { type Result, refuse } from "@/lib/errors/result";

const signInsSchema = z.array(z.object({ role: z.string(), email: z.string(), password: z.string() }));
const LOOPBACK = new Set(["127.0.0.1", "localhost", "[::1]"]);

/** The demo's sign-ins by role; none outside the demo, or where others than this machine could use them. */
async function demoSignIns(): Promise<ReadonlyMap<string, { email: string; password: string }>> {
  const { GRAINLOT_MODE, DEMO_SIGN_INS_FILE, NEXTAUTH_URL } = env();
  const offered = GRAINLOT_MODE === "demo" && LOOPBACK.has(new URL(NEXTAUTH_URL).hostname);
  if (!offered || !DEMO_SIGN_INS_FILE) return new Map();
  const text = await readFile(DEMO_SIGN_INS_FILE, "utf8").catch(() => "[]");
  const byRole = new Map<string, { email: string; password: string }>();
  for (const { role, ...signIn } of signInsSchema.parse(JSON.parse(text))) {
    if (!byRole.has(role)) byRole.set(role, signIn);
  }
  return byRole;
}

/** The roles the sign-in page offers with one tap. */
export async function demoRoles(): Promise<readonly string[]> {
  return [...(await demoSignIns()).keys()];
}

/** Signs in as the demo's person of this role, through the same door as everybody. */
export async function signInAsDemo(
  tx: Transaction,
  role: string,
  from: string,
): Promise<Result<Claims, string>> {
  const signIn = (await demoSignIns()).get(role);
  return signIn ? checkSignIn(tx, { ...signIn, from }) : refuse("DEMO_SIGN_IN_GONE");
}
