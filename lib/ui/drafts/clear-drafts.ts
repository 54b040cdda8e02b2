import { dropAllDrafts } from "./draft-store";
import { dropAllPictures } from "./picture-store";

/** Leaves nothing on this phone that was typed or photographed and not sent: for somebody else's phone. */
export async function clearDrafts(): Promise<void> {
  dropAllDrafts();
  await dropAllPictures();
}
