import { phoneWrite } from "@/lib/http/phone-write";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { drawRequestSchema } from "@/shared/schemas/draw-request";

export const POST = phoneWrite({
  route: "draws",
  schema: drawRequestSchema,
  service: drawOuting,
});
