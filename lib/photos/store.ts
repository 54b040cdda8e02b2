/** A picture as it is kept: re-encoded, upright, without anything its camera wrote into it. */
export interface StoredPhoto {
  /** Of the kept bytes: what the picture is fetched by. */
  readonly sha256: string;
  readonly bytes: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

export type PhotoRefusal = { readonly ok: false; readonly reason: "NOT_A_PICTURE" | "PICTURE_TOO_LARGE" };

/** Where pictures are kept. Content-addressed: the same picture kept twice is one. */
export interface PhotoStore {
  /** Re-encodes a picture and keeps it; refuses what is none, or has more pixels than a camera makes. */
  keep(picture: Uint8Array): Promise<{ readonly ok: true; readonly value: StoredPhoto } | PhotoRefusal>;
  /** JPEG bytes, or null when there are none under that hash. */
  read(sha256: string): Promise<Uint8Array | null>;
  /** Nothing happens when there are none. */
  remove(sha256: string): Promise<void>;
}
