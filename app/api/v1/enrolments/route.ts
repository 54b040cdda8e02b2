import { phoneWrite } from "@/lib/http/phone-write";
import { joinTrial } from "@/lib/services/growing/join";
import { enrolmentSchema } from "@/shared/schemas/enrolment";

export const POST = phoneWrite({
  route: "enrolments",
  schema: enrolmentSchema,
  service: joinTrial,
});
