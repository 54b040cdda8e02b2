import { randomInt } from "node:crypto";
import { chmodSync, writeFileSync } from "node:fs";
import { hashPassword } from "@/lib/auth/passwords";
import { database } from "@/lib/data/client";
import { hasAccounts } from "@/lib/data/demo";
import { type DemoSignIns, loadDemo } from "./load";

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
  const people = {
    grower: { name: "Brisa", email: "grower@demo.example", password: newPassword() },
    lead: { name: "Maren", email: "lead@demo.example", password: newPassword() },
    admin: { name: "Iker", email: "admin@demo.example", password: newPassword() },
  };
  const signIns: DemoSignIns = {
    grower: await hashed(people.grower),
    lead: await hashed(people.lead),
    admin: await hashed(people.admin),
  };
  // All other accounts share the hash of a password that is forgotten here and now.
  const unknownPasswordHash = await hashPassword(newPassword());
  await database().$transaction(
    async (tx) => {
      if (await hasAccounts(tx)) return;
      await loadDemo(tx, new Date(), signIns, unknownPasswordHash);
      writeSignIns(file, people);
    },
    { timeout: 60_000 },
  );
}

async function hashed({ name, email, password }: { name: string; email: string; password: string }) {
  return { name, email, passwordHash: await hashPassword(password) };
}

/** Without the letters and digits that are easily taken for each other. */
const PASSWORD_ALPHABET = "abcdefghjkmnpqrstuvwxyz23456789";

/** Four groups of five: about 99 bits. */
function newPassword(): string {
  const group = () =>
    Array.from({ length: 5 }, () => PASSWORD_ALPHABET[randomInt(PASSWORD_ALPHABET.length)]).join("");
  return [group(), group(), group(), group()].join("-");
}

function writeSignIns(
  file: string,
  people: Record<string, { readonly email: string; readonly password: string }>,
): void {
  const list = Object.entries(people).map(([role, { email, password }]) => ({ role, email, password }));
  writeFileSync(file, `${JSON.stringify(list, null, 2)}\n`, { mode: 0o600 });
  chmodSync(file, 0o600);
}

main()
  .catch((fault: unknown) => {
    console.error(fault);
    process.exitCode = 1;
  })
  .finally(() => database().$disconnect());
