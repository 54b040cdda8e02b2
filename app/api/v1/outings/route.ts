import { phoneWrite } from "@/lib/http/phone-write";
import { planOuting } from "@/lib/services/growing/plan-outing";
import { outingSchema } from "@/shared/schemas/outing";

export const POST = phoneWrite({
  route: "outings",
  schema: outingSchema,
  service: planOuting,
});
