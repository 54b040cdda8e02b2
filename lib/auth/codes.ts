import { createHash, randomBytes, randomInt } from "node:crypto";

/** Digits and capitals without those read for one another (0 O, 1 I L, 5 S, 8 B, U V). */
const ALPHABET = "234679ACDEFGHJKMNPQRTVWXYZ";

/** A random code to say aloud or copy by hand; ten characters are 47 bits. */
export function randomCode(length = 10): string {
  return Array.from({ length }, () => ALPHABET[randomInt(ALPHABET.length)]).join("");
}

/** A code as it is stored, from what somebody typed: any case, with spaces or hyphens. */
export function typedCode(typed: string): string {
  return typed.toUpperCase().replace(/[\s-]/g, "");
}

/** The secret of a one-time link: 256 bits. */
export function randomToken(): string {
  return randomBytes(32).toString("base64url");
}

/** What is kept of a one-time link; a random secret of this length needs no slow hash. */
export function tokenHash(token: string): string {
  return createHash("sha256").update(token).digest("hex");
}
