import { hmac } from "@noble/hashes/hmac.js";
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, hexToBytes, utf8ToBytes } from "@noble/hashes/utils.js";
import canonicalize from "canonicalize";

export { bytesToHex, hexToBytes, utf8ToBytes };

/** SHA-256 (FIPS 180-4) of the text's UTF-8 bytes, as 64 lower-case hex digits. */
export function sha256Hex(text: string): string {
  return sha256HexOfBytes(utf8ToBytes(text));
}

/** SHA-256 (FIPS 180-4) of the bytes, as 64 lower-case hex digits. */
export function sha256HexOfBytes(bytes: Uint8Array): string {
  return bytesToHex(sha256(bytes));
}

/** HMAC-SHA-256 (RFC 2104, FIPS 198-1) of the message: 32 bytes. */
export function hmacSha256(keyBytes: Uint8Array, message: Uint8Array): Uint8Array {
  return hmac(sha256, keyBytes, message);
}

/**
 * The value as canonical JSON (RFC 8785): no white space, members sorted by UTF-16 code units, numbers as
 * ECMAScript prints them. Members that are `undefined` are left out, as in JSON.
 * Throws on what JSON cannot carry: NaN, infinities, lone surrogates, cycles, a bare `undefined`.
 */
export function canonicalJson(value: unknown): string {
  const text = canonicalize(value);
  if (text === undefined) {
    throw new TypeError(
      "This value has no JSON form; pass an object, array, string, number, boolean or null.",
    );
  }
  return text;
}

/** SHA-256 of the value's canonical JSON (RFC 8785): equal content gives equal hashes whatever the member order. */
export function canonicalHash(value: unknown): string {
  return sha256Hex(canonicalJson(value));
}
