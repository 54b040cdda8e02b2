/** What a server keeps (lib/photos/disk-store.ts); more would only be sent to be thrown away. */
const LONGEST_SIDE_PX = 1600;
const JPEG_QUALITY = 0.85;

/**
 * A picture upright and no larger than it is kept, as JPEG, so that it takes little signal and the position that the
 * camera wrote into it never leaves the phone. What this phone can't read goes as it is; the server says what is wrong.
 */
export async function shrinkPicture(file: Blob): Promise<Blob> {
  try {
    const bitmap = await createImageBitmap(file, { imageOrientation: "from-image" });
    const scale = Math.min(1, LONGEST_SIDE_PX / Math.max(bitmap.width, bitmap.height));
    const canvas = document.createElement("canvas");
    canvas.width = Math.round(bitmap.width * scale);
    canvas.height = Math.round(bitmap.height * scale);
    const context = canvas.getContext("2d");
    if (!context) return file;
    context.fillStyle = "white"; // behind what is transparent, which JPEG can't be
    context.fillRect(0, 0, canvas.width, canvas.height);
    context.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
    bitmap.close();
    return await new Promise((done) =>
      canvas.toBlob((smaller) => done(smaller ?? file), "image/jpeg", JPEG_QUALITY),
    );
  } catch {
    return file;
  }
}
