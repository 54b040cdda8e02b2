import { phoneWrite } from "@/lib/http/phone-write";
import { enqueuePool } from "@/lib/jobs/boss";
import { recordWeather } from "@/lib/services/growing/weather";
import { weatherSchema } from "@/shared/schemas/weather";

export const POST = phoneWrite({
  route: "weather",
  schema: weatherSchema,
  service: recordWeather,
  afterwards: ({ trialId }) => enqueuePool(trialId),
});
