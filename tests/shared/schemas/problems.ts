import type { z } from "zod";

/** Every message of a failed parse, those inside a union's options included, as `path: message`. */
export function problemsOf(schema: z.ZodType, input: unknown): string[] {
  const result = schema.safeParse(input);
  return result.success ? [] : messages(result.error.issues, []);
}

function messages(issues: readonly z.core.$ZodIssue[], outer: readonly PropertyKey[]): string[] {
  return issues.flatMap((issue) => {
    const path = [...outer, ...issue.path];
    const inner =
      issue.code === "invalid_union" ? issue.errors.flatMap((nested) => messages(nested, path)) : [];
    return [`${path.join(".")}: ${issue.message}`, ...inner];
  });
}

/** The form of a key of the message catalogue: no spaces, no prose. */
export const MESSAGE_KEY = /^[^:]*: [a-z][A-Za-z0-9]*(\.[a-z][A-Za-z0-9]*)+$/;

/** Values that no field accepts as they are, or only some do. */
const ODD_VALUES: readonly unknown[] = [
  undefined,
  null,
  "",
  "x",
  -1,
  1e9,
  0.123456,
  Number.NaN,
  true,
  [],
  ["x"],
  {},
  { value: "x" },
];

/** The input with each member, at any depth, replaced by each odd value in turn, and with a member too many. */
export function spoiled(input: unknown): unknown[] {
  if (typeof input !== "object" || input === null) return [...ODD_VALUES];
  const members = Object.entries(input).flatMap(([key, value]) =>
    spoiled(value).map((bad) =>
      Array.isArray(input) ? input.with(Number(key), bad) : { ...input, [key]: bad },
    ),
  );
  return Array.isArray(input)
    ? [...members, ...ODD_VALUES]
    : [...members, { ...input, extra: 1 }, ...ODD_VALUES];
}
