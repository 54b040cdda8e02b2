import { phoneWrite } from "@/lib/http/phone-write";
import { changeSite } from "@/lib/services/growing/sites";
import { siteChangeSchema } from "@/shared/schemas/site";

export const POST = phoneWrite({
  route: "site-changes",
  schema: siteChangeSchema,
  service: changeSite,
});
