import { phoneWrite } from "@/lib/http/phone-write";
import { registerVariant } from "@/lib/services/growing/variants";
import { shelfEntrySchema } from "@/shared/schemas/shelf-entry";

export const POST = phoneWrite({
  route: "variants",
  schema: shelfEntrySchema,
  service: registerVariant,
});
