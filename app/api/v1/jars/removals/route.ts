import { phoneWrite } from "@/lib/http/phone-write";
import { removeJar } from "@/lib/services/growing/jars";
import { jarRemovalSchema } from "@/shared/schemas/jar";

export const POST = phoneWrite({
  route: "jar-removals",
  schema: jarRemovalSchema,
  service: removeJar,
});
