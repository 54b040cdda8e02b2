import { chacha20 } from "@noble/ciphers/chacha.js";
import { sha256 } from "@noble/hashes/sha2.js";
import { hexToBytes, hmacSha256, utf8ToBytes } from "./hash";

/** A stream of random numbers that its key decides wholly; each call moves the stream on. */
export interface RandomSource {
  /** A whole number from 0 to 2³² − 1, both included. Takes one word. */
  nextUint32(): number;
  /** A whole number below `n`: 0 included, `n` excluded; 1 ≤ n ≤ 2³². Takes one word or, when some are rejected, more. */
  below(n: number): number;
  /** A new array with the same items in random order, every order equally likely. */
  shuffle<T>(items: readonly T[]): T[];
  /** A number in [0, 1) with 53 random bits. Takes two words. */
  unit(): number;
}

/** What decides one draw: the trial's secret and which of its draws this is. */
export interface DrawKey {
  /** The trial's secret: 32 bytes as 64 lower-case hex digits. */
  readonly secretHex: string;
  readonly trialId: string;
  /** 1 for the trial's first draw. */
  readonly drawNumber: number;
}

const SECRET_HEX = /^[0-9a-f]{64}$/;
const KEYSTREAM_BYTES_PER_REFILL = 1024;
const BLOCK_BYTES = 64;
const WORDS = 2 ** 32;

/** Whether the text is a trial secret's form: 32 bytes as 64 lower-case hex digits. */
export function isSecretHex(text: string): boolean {
  return SECRET_HEX.test(text);
}

/**
 * The random numbers of one draw: the ChaCha20 key stream (RFC 8439) whose 32-byte key is
 * HMAC-SHA256(key = the secret's 32 bytes, message = UTF-8 of `<trialId>/<drawNumber>`), the number in decimal
 * without leading zeros; the nonce is 12 zero bytes and the block counter starts at 0. The stream is read as
 * little-endian 32-bit words.
 * Throws when the secret is not 64 lower-case hex digits, the trial id is empty or the number is below 1.
 */
export function drawSource({ secretHex, trialId, drawNumber }: DrawKey): RandomSource {
  if (!isSecretHex(secretHex)) {
    throw new RangeError("A trial's secret is 64 lower-case hex digits (32 bytes).");
  }
  if (trialId === "") throw new RangeError("A draw needs its trial's id.");
  if (!Number.isSafeInteger(drawNumber) || drawNumber < 1) {
    throw new RangeError(`Draws are numbered 1, 2, 3, …; got ${drawNumber}.`);
  }
  return keystreamSource(hmacSha256(hexToBytes(secretHex), utf8ToBytes(`${trialId}/${drawNumber}`)));
}

/** Random numbers for simulations: the same stream keyed by SHA-256 of the seed's UTF-8 bytes. Not for draws. */
export function seededSource(seed: string): RandomSource {
  return keystreamSource(sha256(utf8ToBytes(seed)));
}

/**
 * The ChaCha20 key stream (RFC 8439, nonce of 12 zero bytes, counter from 0) of a 32-byte key as a random source.
 * Ends after 2³² − 1 blocks (256 GiB) by throwing.
 */
export function keystreamSource(key: Uint8Array): RandomSource {
  const nonce = new Uint8Array(12);
  const zeros = new Uint8Array(KEYSTREAM_BYTES_PER_REFILL);
  let counter = 0;
  let words = new DataView(zeros.buffer);
  let offset = KEYSTREAM_BYTES_PER_REFILL;

  function nextUint32(): number {
    if (offset === KEYSTREAM_BYTES_PER_REFILL) {
      const keystream = chacha20(key, nonce, zeros, undefined, counter);
      words = new DataView(keystream.buffer, keystream.byteOffset);
      counter += KEYSTREAM_BYTES_PER_REFILL / BLOCK_BYTES;
      offset = 0;
    }
    const word = words.getUint32(offset, true);
    offset += 4;
    return word;
  }

  /** Words at or above the largest multiple of n are rejected, so that no remainder is favoured. */
  function below(n: number): number {
    if (!Number.isInteger(n) || n < 1 || n > WORDS) {
      throw new RangeError(`below(n) takes a whole number from 1 to 2^32; got ${n}.`);
    }
    const limit = WORDS - (WORDS % n);
    let word = nextUint32();
    while (word >= limit) word = nextUint32();
    return word % n;
  }

  /** Fisher–Yates from the last place down (Knuth, The Art of Computer Programming 2, algorithm 3.4.2 P). */
  function shuffle<T>(items: readonly T[]): T[] {
    const shuffled = [...items];
    for (let last = shuffled.length - 1; last > 0; last--) {
      const chosen = below(last + 1);
      [shuffled[last], shuffled[chosen]] = [shuffled[chosen] as T, shuffled[last] as T];
    }
    return shuffled;
  }

  /** 27 and 26 bits, as `genrand_res53` of Matsumoto & Nishimura's mt19937ar.c joins them. */
  function unit(): number {
    const high = nextUint32() >>> 5;
    const low = nextUint32() >>> 6;
    return (high * 2 ** 26 + low) / 2 ** 53;
  }

  return { nextUint32, below, shuffle, unit };
}
