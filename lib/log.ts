import pino from "pino";

/**
 * A fault as it is logged. Only these four: a database driver hangs the whole connection, password included, on
 * its errors.
 */
export function faultFields(fault: unknown): Record<string, unknown> {
  if (!(fault instanceof Error)) return { message: String(fault) };
  const { name, message, stack } = fault;
  return { type: name, message, stack, code: (fault as { code?: unknown }).code };
}

/** Structured lines on standard output; whatever could hold a secret or a person is cut out. */
export const log = pino({
  level: process.env.LOG_LEVEL ?? "info",
  base: undefined,
  serializers: { err: faultFields },
  redact: {
    paths: ["*.password", "*.token", "*.email", "*.authorization", "*.cookie", "password", "token", "email"],
    censor: "[withheld]",
  },
});
