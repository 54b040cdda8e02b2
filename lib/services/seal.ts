import { createCipheriv, createDecipheriv, randomBytes } from "node:crypto";
import { env } from "@/lib/env";

const NONCE_BYTES = 12;
const TAG_BYTES = 16;

/** A new trial secret: 32 random bytes as 64 lower-case hex digits. */
export function newSecretHex(): string {
  return randomBytes(32).toString("hex");
}

/** The secret as it is stored: nonce (12) ‖ tag (16) ‖ ciphertext (32), AES-256-GCM under the server's seal key. */
export function sealSecret(secretHex: string): Uint8Array<ArrayBuffer> {
  const nonce = randomBytes(NONCE_BYTES);
  const cipher = createCipheriv("aes-256-gcm", sealKey(), nonce);
  const ciphertext = Buffer.concat([cipher.update(secretHex, "hex"), cipher.final()]);
  return new Uint8Array(Buffer.concat([nonce, cipher.getAuthTag(), ciphertext]));
}

/** The stored secret in the open. Throws when it was changed or the server's seal key is not the one it was sealed with. */
export function openSecret(stored: Uint8Array): string {
  const nonce = stored.subarray(0, NONCE_BYTES);
  const decipher = createDecipheriv("aes-256-gcm", sealKey(), nonce, { authTagLength: TAG_BYTES });
  decipher.setAuthTag(stored.subarray(NONCE_BYTES, NONCE_BYTES + TAG_BYTES));
  const opened = decipher.update(stored.subarray(NONCE_BYTES + TAG_BYTES));
  try {
    return Buffer.concat([opened, decipher.final()]).toString("hex");
  } catch (cause) {
    throw new Error(
      "A trial's secret can't be opened: start the server with the GRAINLOT_SEAL_KEY it was sealed with.",
      { cause },
    );
  }
}

function sealKey(): Buffer {
  return Buffer.from(env().GRAINLOT_SEAL_KEY, "hex");
}
