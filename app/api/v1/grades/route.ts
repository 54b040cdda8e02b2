import { recordWrite } from "@/lib/http/phone-write";
import { enqueuePool } from "@/lib/jobs/boss";
import { recordGrade } from "@/lib/services/growing/grades";
import { gradeSchema } from "@/shared/schemas/grade";

export const POST = recordWrite({
  route: "grades",
  schema: gradeSchema,
  service: recordGrade,
  afterwards: ({ trialId }) => enqueuePool(trialId),
});
