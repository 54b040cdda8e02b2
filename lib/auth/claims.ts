import { z } from "zod";

/** What a session cookie says. It proves nothing by itself: the database decides (session.ts). */
export const claimsSchema = z.object({
  accountId: z.uuid(),
  sessionVersion: z.number().int().min(1),
  /** On somebody else's phone: when the session ends whatever happens, in seconds since 1970. */
  endsAt: z.number().int().optional(),
});

export type Claims = z.infer<typeof claimsSchema>;
