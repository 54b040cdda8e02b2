import { recordWrite } from "@/lib/http/phone-write";
import { enqueuePool } from "@/lib/jobs/boss";
import { recordBoxEvent } from "@/lib/services/growing/box-events";
import { boxEventSchema } from "@/shared/schemas/box-event";

export const POST = recordWrite({
  route: "box-events",
  schema: boxEventSchema,
  service: recordBoxEvent,
  afterwards: ({ trialId }) => enqueuePool(trialId),
});
