import { recordWrite } from "@/lib/http/phone-write";
import { removePhoto } from "@/lib/services/growing/photos";
import { photoRemovalSchema } from "@/shared/schemas/photo";

export const POST = recordWrite({
  route: "photo-removals",
  schema: photoRemovalSchema,
  service: removePhoto,
});
