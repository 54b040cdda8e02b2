import { phoneWrite } from "@/lib/http/phone-write";
import { changePin } from "@/lib/services/growing/outing-report";
import { pinRequestSchema } from "@/shared/schemas/box-event";

export const POST = phoneWrite({ route: "pins", schema: pinRequestSchema, service: changePin });
