import { describe, expect, test } from "vitest";
import {
  bytesToHex,
  canonicalHash,
  canonicalJson,
  hexToBytes,
  hmacSha256,
  sha256Hex,
  sha256HexOfBytes,
  utf8ToBytes,
} from "@/lib/engine/random/hash";

describe("SHA-256", () => {
  // NIST, examples to FIPS 180-4 (SHA256.pdf: one block, two blocks) and FIPS 180-2 appendix B.3 (a million a's);
  // the empty message from NIST's CAVP SHA256ShortMsg.
  test.each([
    ["", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"],
    ["abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"],
    [
      "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
      "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    ],
    ["a".repeat(1_000_000), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"],
  ])("gives NIST's digest (%#)", (message, digest) => {
    expect(sha256Hex(message)).toBe(digest);
    expect(sha256HexOfBytes(utf8ToBytes(message))).toBe(digest);
  });

  test("reads text as UTF-8", () => {
    // RFC 8785, section 3.2.4 prints the euro sign's bytes.
    expect(sha256Hex("€")).toBe(sha256HexOfBytes(hexToBytes("e282ac")));
  });
});

describe("HMAC-SHA-256", () => {
  // RFC 4231, sections 4.2 to 4.8. Case 5 is published cut to 128 bits.
  const cases: [name: string, keyHex: string, message: Uint8Array, mac: string][] = [
    [
      "1",
      "0b".repeat(20),
      utf8ToBytes("Hi There"),
      "b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7",
    ],
    [
      "2: key shorter than the output",
      bytesToHex(utf8ToBytes("Jefe")),
      utf8ToBytes("what do ya want for nothing?"),
      "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843",
    ],
    [
      "3: key and data together longer than a block",
      "aa".repeat(20),
      hexToBytes("dd".repeat(50)),
      "773ea91e36800e46854db8ebd09181a72959098b3ef8c122d9635514ced565fe",
    ],
    [
      "4",
      "0102030405060708090a0b0c0d0e0f10111213141516171819",
      hexToBytes("cd".repeat(50)),
      "82558a389a443c0ea4cc819899f2083a85f0faa3e578f8077a2e3ff46729665b",
    ],
    [
      "5: truncated output",
      "0c".repeat(20),
      utf8ToBytes("Test With Truncation"),
      "a3b6167473100ee06e0c796c2955552b",
    ],
    [
      "6: key longer than a block",
      "aa".repeat(131),
      utf8ToBytes("Test Using Larger Than Block-Size Key - Hash Key First"),
      "60e431591ee0b67f0d8a26aacbf5b77f8e0bc6213728c5140546040f0ee37f54",
    ],
    [
      "7: key and data longer than a block",
      "aa".repeat(131),
      utf8ToBytes(
        "This is a test using a larger than block-size key and a larger than block-size data. The key needs to be hashed before being used by the HMAC algorithm.",
      ),
      "9b09ffa71b942fcb27635fbcd5b0e944bfdc63644f0713938a7f51535c3a35e2",
    ],
  ];

  test.each(cases)("RFC 4231 case %s", (_name, keyHex, message, mac) => {
    expect(bytesToHex(hmacSha256(hexToBytes(keyHex), message)).slice(0, mac.length)).toBe(mac);
  });
});

describe("canonical JSON", () => {
  test("RFC 8785, 3.2.2: numbers, strings and literals", () => {
    const value = JSON.parse(
      '{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],' +
        String.raw`"string":"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/","literals":[null,true,false]}`,
    );
    expect(canonicalJson(value)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],' +
        String.raw`"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    );
  });

  test("RFC 8785, 3.2.3: members are sorted by UTF-16 code units, not by code points", () => {
    const value = JSON.parse(
      String.raw`{"\u20ac":"Euro Sign","\r":"Carriage Return","\ufb33":"Hebrew Letter Dalet With Dagesh","1":"One",` +
        String.raw`"\ud83d\ude00":"Emoji: Grinning Face","\u0080":"Control",` +
        String.raw`"\u00f6":"Latin Small Letter O With Diaeresis"}`,
    );
    expect([...canonicalJson(value).matchAll(/:"([^"]+)"/g)].map((match) => match[1])).toEqual([
      "Carriage Return",
      "One",
      "Control",
      "Latin Small Letter O With Diaeresis",
      "Euro Sign",
      "Emoji: Grinning Face",
      "Hebrew Letter Dalet With Dagesh",
    ]);
  });

  test("equal content has one hash whatever the order of its members", () => {
    const hash = canonicalHash({ arm: "A", at: { x: 1, y: [2, 3] } });
    expect(canonicalHash({ at: { y: [2, 3], x: 1 }, arm: "A" })).toBe(hash);
    expect(canonicalHash({ at: { y: [3, 2], x: 1 }, arm: "A" })).not.toBe(hash);
    expect(hash).toBe(sha256Hex('{"arm":"A","at":{"x":1,"y":[2,3]}}'));
  });

  test.each([[undefined], [Number.NaN], [{ a: Number.POSITIVE_INFINITY }], ["\ud800"]])(
    "refuses what JSON cannot carry (%#)",
    (value) => {
      expect(() => canonicalHash(value)).toThrow();
    },
  );
});
