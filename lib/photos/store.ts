/** A picture as it is kept: re-encoded, upright, without anything its camera wrote into it. */
export interface StoredPhoto {
  /** Of the kept bytes: what the picture is fetched by. */
  readonly sha256: string;
  readonly bytes: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

export type PhotoRefusal = {
  readonly ok: false;
  readonly reason: "NOT_A_PICTURE" | "PICTURE_IS_HEIC" | "PICTURE_TOO_LARGE";
};

/**
 * Where pictures are kept, each account's apart, so that all of them can go with it. Content-addressed: the same
 * picture kept twice by one account is one.
 */
export interface PhotoStore {
  /** Re-encodes a JPEG, PNG or WebP picture and keeps it; refuses what is none, or has more pixels than a camera makes. */
  keep(
    accountId: string,
    picture: Uint8Array,
  ): Promise<{ readonly ok: true; readonly value: StoredPhoto } | PhotoRefusal>;
  /** JPEG bytes, or null when the account has none under that hash. */
  read(accountId: string, sha256: string): Promise<Uint8Array<ArrayBuffer> | null>;
  /** Nothing happens when there are none. */
  remove(accountId: string, sha256: string): Promise<void>;
  /** Every picture of the account. */
  removeAll(accountId: string): Promise<void>;
}
