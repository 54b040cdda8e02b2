import { pictureWrite } from "@/lib/http/picture-write";

export const POST = pictureWrite;
