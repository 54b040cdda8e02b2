import pino from "pino";

/** Structured lines on standard output; whatever could hold a secret or a person is cut out. */
export const log = pino({
  level: process.env.LOG_LEVEL ?? "info",
  base: undefined,
  redact: {
    paths: ["*.password", "*.token", "*.email", "*.authorization", "*.cookie", "password", "token", "email"],
    censor: "[withheld]",
  },
});
