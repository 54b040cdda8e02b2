import { phoneWrite } from "@/lib/http/phone-write";
import { replanSet } from "@/lib/services/growing/plan-outing";
import { outingChangeSchema } from "@/shared/schemas/outing";

export const POST = phoneWrite({ route: "outing-changes", schema: outingChangeSchema, service: replanSet });
