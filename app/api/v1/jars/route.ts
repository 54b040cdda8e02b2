import { phoneWrite } from "@/lib/http/phone-write";
import { makeJar } from "@/lib/services/growing/jars";
import { jarSchema } from "@/shared/schemas/jar";

export const POST = phoneWrite({
  route: "jars",
  schema: jarSchema,
  service: makeJar,
});
