import { randomInt } from "node:crypto";
import { chmodSync, writeFileSync } from "node:fs";
import { hashPassword } from "@/lib/auth/passwords";
import { database } from "@/lib/data/client";
import { hasAccounts } from "@/lib/data/demo";
import { photoStore } from "@/lib/photos/disk-store";
import { loadDemo } from "./load";
import { DEMO_ROLES, type DemoRole } from "./people";
import { takePictures } from "./pictures";

/** Loads the demo into a database without accounts and writes who can sign in to DEMO_SIGN_INS_FILE. */
async function main(): Promise<void> {
  if (process.env.GRAINLOT_DEMO !== "1") {
    throw new Error(
      "The demo fills a database with invented data: set GRAINLOT_DEMO=1 when that is what you want.",
    );
  }
  const file = process.env.DEMO_SIGN_INS_FILE;
  if (!file) throw new Error("Say in DEMO_SIGN_INS_FILE where the demo's sign-ins are to be written.");
  if (await hasAccounts(database())) return;
  const roles = Object.keys(DEMO_ROLES) as DemoRole[];
  const passwords = new Map(roles.map((role) => [role, newPassword()]));
  const hashes = new Map<DemoRole | null, string>();
  for (const [role, password] of passwords) hashes.set(role, await hashPassword(password));
  // All other accounts share the hash of a password that is forgotten here and now.
  hashes.set(null, await hashPassword(newPassword()));
  await database().$transaction(
    async (tx) => {
      if (await hasAccounts(tx)) return;
      const demo = await loadDemo(tx, new Date(), (role) => hashes.get(role)!);
      await takePictures(tx, photoStore(), demo);
      writeSignIns(file, passwords);
    },
    { timeout: 180_000 },
  );
}

/** Without the letters and digits that are easily taken for each other. */
const PASSWORD_ALPHABET = "abcdefghjkmnpqrstuvwxyz23456789";

/** Four groups of five: about 99 bits. */
function newPassword(): string {
  const group = () =>
    Array.from({ length: 5 }, () => PASSWORD_ALPHABET[randomInt(PASSWORD_ALPHABET.length)]).join("");
  return [group(), group(), group(), group()].join("-");
}

function writeSignIns(file: string, passwords: ReadonlyMap<DemoRole, string>): void {
  const list = [...passwords].map(([role, password]) => ({ role, email: DEMO_ROLES[role].email, password }));
  writeFileSync(file, `${JSON.stringify(list, null, 2)}\n`, { mode: 0o600 });
  chmodSync(file, 0o600);
}

main()
  .catch((fault: unknown) => {
    console.error(fault);
    process.exitCode = 1;
  })
  .finally(() => database().$disconnect());
