import { notFound } from "next/navigation";
import type { Recorder } from "@/lib/auth/actor";
import { type BoxRecord, boxRecord } from "@/lib/services/growing/box-record";
import { reading } from "@/lib/services/run";
import { isUuid } from "@/shared/schemas/id";

/** The box of a set that an address names by its place, for whoever may record it; for anyone else there is no such page. */
export async function loadBox(recorder: Recorder, outingId: string, position: string): Promise<BoxRecord> {
  const isPlace = isUuid(outingId) && /^\d{1,2}$/.test(position);
  const box = isPlace ? await reading((tx) => boxRecord(tx, recorder, outingId, Number(position))) : null;
  return box ?? notFound();
}
