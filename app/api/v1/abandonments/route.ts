import { phoneWrite } from "@/lib/http/phone-write";
import { enqueuePool } from "@/lib/jobs/boss";
import { giveUpOuting } from "@/lib/services/growing/plan-outing";
import { abandonmentSchema } from "@/shared/schemas/draw-request";

export const POST = phoneWrite({
  route: "abandonments",
  schema: abandonmentSchema,
  service: giveUpOuting,
  afterwards: ({ trialId }) => enqueuePool(trialId),
});
