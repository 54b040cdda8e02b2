import { phoneWrite } from "@/lib/http/phone-write";
import { editJar } from "@/lib/services/growing/jars";
import { jarEditSchema } from "@/shared/schemas/jar";

export const POST = phoneWrite({
  route: "jar-edits",
  schema: jarEditSchema,
  service: editJar,
});
