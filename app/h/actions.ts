"use server";

import { redirect } from "next/navigation";
import { stopHelping } from "@/lib/auth/helper";

/** Forgets the helper link in this browser. */
export async function stop(): Promise<void> {
  await stopHelping();
  redirect("/");
}
