import { z } from "zod";

/** Text that can be kept: PostgreSQL has no NUL character. `error` is a key of the message catalogue. */
export function keepableText(error: string) {
  return z.string({ error }).refine((text) => !text.includes("\0"), { error });
}
