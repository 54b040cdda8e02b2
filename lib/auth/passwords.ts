import { hash, verify } from "@node-rs/argon2";

/** OWASP Password Storage Cheat Sheet: argon2id (the library's default) with at least m = 19 MiB, t = 2, p = 1. */
const COST = { memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;

/** NFC first: the same password typed on another keyboard may arrive decomposed. */
export function hashPassword(password: string): Promise<string> {
  return hash(password.normalize("NFC"), COST);
}

let unknownAccountHash: Promise<string> | undefined;

/**
 * Whether the password is the hash's. Without a hash (nobody has that address) it works as long and says no,
 * so that the time doesn't tell who has an account.
 */
export async function passwordMatches(passwordHash: string | undefined, password: string): Promise<boolean> {
  unknownAccountHash ??= hashPassword(crypto.randomUUID());
  const matches = await verify(passwordHash ?? (await unknownAccountHash), password.normalize("NFC"));
  return matches && passwordHash !== undefined;
}
