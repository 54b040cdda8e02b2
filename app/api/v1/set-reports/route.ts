import { recordWrite } from "@/lib/http/phone-write";
import { enqueuePool } from "@/lib/jobs/boss";
import { recordSetReport } from "@/lib/services/growing/outing-report";
import { setReportSchema } from "@/shared/schemas/box-event";

export const POST = recordWrite({
  route: "set-reports",
  schema: setReportSchema,
  service: recordSetReport,
  afterwards: ({ trialId }) => enqueuePool(trialId),
});
