import { createHash } from "node:crypto";
import { currentRecorder } from "@/lib/auth/helper";
import { withinLimits } from "@/lib/auth/limits";
import { log } from "@/lib/log";
import { photoStore } from "@/lib/photos/disk-store";
import { addPhoto, dropUnusedPicture } from "@/lib/services/growing/photos";
import { reading } from "@/lib/services/run";
import { photoSchema } from "@/shared/schemas/photo";
import { PHOTO_LIMIT_BYTES, subjectOfPhoto } from "@/shared/vocabulary/photo";
import { isSameOrigin, readBytes } from "./body";
import { answerOnce, fieldFaults } from "./phone-write";
import { problem } from "./problem";

/**
 * Takes a picture: its bytes are the body, what goes with it stands in the address. Sent again with the same id and
 * the same bytes it gets the first answer, like any other phone write. The bytes are in the store before the row is,
 * and leave it again where no row came of it.
 */
export async function pictureWrite(request: Request): Promise<Response> {
  if (!isSameOrigin(request)) return problem("NOT_SAME_ORIGIN");
  const who = await currentRecorder();
  if (typeof who === "string") return problem(who);
  const parsed = photoSchema.safeParse(Object.fromEntries(new URL(request.url).searchParams));
  if (!parsed.success) return problem("INVALID", fieldFaults(parsed.error));
  const recorder = who(subjectOfPhoto(parsed.data.purpose, parsed.data.of));
  const { accountId } = recorder;
  if (!(await withinLimits({ pictures: accountId }))) return problem("TOO_MANY_REQUESTS");
  const picture = await readBytes(request, PHOTO_LIMIT_BYTES);
  if (!picture) return problem("PICTURE_TOO_LARGE");

  const stored = await photoStore().keep(accountId, picture);
  if (!stored.ok) return problem(stored.reason);
  const response = await answerOnce(
    { route: "photos", service: (tx, by, input) => addPhoto(tx, by, { ...input, stored: stored.value }) },
    recorder,
    { ...parsed.data, pictureSha256: createHash("sha256").update(picture).digest("hex") },
    request,
  );
  if (!response.ok) {
    await reading((tx) => dropUnusedPicture(tx, accountId, stored.value.sha256)).catch((err) =>
      log.warn({ err, requestId: request.headers.get("x-request-id") }, "a refused picture's bytes stayed"),
    );
  }
  return response;
}
