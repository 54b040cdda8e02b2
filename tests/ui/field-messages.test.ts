import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { fieldMessages } from "@/lib/ui/messages/en/fields";
import { root } from "../harness/root";

/** What phones send, and the plan. Forms answered by server actions keep their words with their pages. */
const SCHEMAS = [
  "box-event",
  "climate-grouping",
  "draw",
  "draw-request",
  "enrolment",
  "grade",
  "id",
  "jar",
  "outing",
  "photo",
  "plan",
  "protocol-variant",
  "shelf-entry",
  "site",
  "weather",
];
const source = SCHEMAS.map((name) =>
  readFileSync(join(root, "shared", "schemas", `${name}.ts`), "utf8"),
).join("\n");
const written = [...source.matchAll(/"((?:[a-z][A-Za-z]*\.)+[a-z][A-Za-z0-9]*)"/g)].map(([, code]) => code!);
/** Codes put together from the names a schema function is called with, as they stand in the source. */
const assembled = [...source.matchAll(/`((?:site|outing)\.\$\{name\}\.[a-zA-Z]+)`/g)].map(
  ([, code]) => code!,
);
const names: Readonly<Record<string, readonly string[]>> = {
  outing: ["innerLength", "innerWidth", "innerHeight"],
  site: ["latitude", "longitude", "temperature", "rain"],
};

describe("the words of field codes", () => {
  it("exist for every code the schemas write out", () => {
    expect(written.length).toBeGreaterThan(70);
    expect(written.filter((code) => !(code in fieldMessages))).toEqual([]);
  });

  it("exist for some name of every code the schemas assemble", () => {
    expect(assembled.length).toBeGreaterThan(5);
    const missing = assembled.filter((code) => {
      const [topic, , fault] = code.split(".");
      return !names[topic!]!.some((name) => `${topic}.${name}.${fault}` in fieldMessages);
    });
    expect(missing).toEqual([]);
  });
});
