import { phoneWrite } from "@/lib/http/phone-write";
import { registerSite } from "@/lib/services/growing/sites";
import { siteSchema } from "@/shared/schemas/site";

export const POST = phoneWrite({
  route: "sites",
  schema: siteSchema,
  service: registerSite,
});
