import { z } from "zod";

/** An id made where the thing is made, often a phone: UUID version 7, RFC 9562. */
export const uuidV7 = z.uuidv7({ error: "id.uuidV7" });
