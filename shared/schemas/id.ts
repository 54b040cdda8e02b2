import { z } from "zod";

/** An id made where the thing is made, often a phone: UUID version 7, RFC 9562. */
export const uuidV7 = z.uuidv7({ error: "id.uuidV7" });

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;

/** Whether text from an address can be an id at all. */
export function isUuid(text: string | undefined): text is string {
  return text !== undefined && UUID.test(text);
}
