import { bytesToHex, hexToBytes, hmacSha256, utf8ToBytes } from "../random/hash";

/**
 * The id an outing has in the public ledger: 16 bytes of HMAC-SHA-256(trial secret, "outing/<id>") as a UUIDv8.
 * An outing's own id tells the millisecond it was planned; this one tells nothing, and once the secret is opened
 * whoever knows the own id can check which draw it is.
 */
export function ledgerOutingId(secretHex: string, outingId: string): string {
  const bytes = hmacSha256(hexToBytes(secretHex), utf8ToBytes(`outing/${outingId}`)).slice(0, 16);
  bytes[6] = (bytes[6]! & 0x0f) | 0x80;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  return bytesToHex(bytes).replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}
