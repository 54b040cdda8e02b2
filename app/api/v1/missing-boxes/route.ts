import { phoneWrite } from "@/lib/http/phone-write";
import { enqueuePool } from "@/lib/jobs/boss";
import { leaveOutBox } from "@/lib/services/growing/outing-change";
import { boxShortSchema } from "@/shared/schemas/outing";

export const POST = phoneWrite({
  route: "missing-boxes",
  schema: boxShortSchema,
  service: leaveOutBox,
  afterwards: ({ trialId }) => enqueuePool(trialId),
});
