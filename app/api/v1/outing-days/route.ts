import { phoneWrite } from "@/lib/http/phone-write";
import { moveDay } from "@/lib/services/growing/outing-change";
import { outingDaySchema } from "@/shared/schemas/outing";

export const POST = phoneWrite({ route: "outing-days", schema: outingDaySchema, service: moveDay });
