import { z } from "zod";

/** What a session cookie says. It proves nothing by itself: the database decides (session.ts). */
export const claimsSchema = z.object({
  accountId: z.uuid(),
  sessionVersion: z.number().int().min(1),
});

export type Claims = z.infer<typeof claimsSchema>;
