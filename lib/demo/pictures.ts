import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { type RandomSource, seededSource } from "@/lib/engine/random/source";
import type { PhotoStore } from "@/lib/photos/store";
import { addPhoto } from "@/lib/services/growing/photos";
import type { TakeClass } from "@/shared/vocabulary/growth";
import type { PhotoPurpose } from "@/shared/vocabulary/photo";
import { idAt, minutesAfter } from "./chance";
import { drawOpenedBox, drawSetOut } from "./drawings";
import { type DemoSeason, must } from "./journeys";
import { DEMO_SEED } from "./truth";

/** Different drawings of each class of growth. */
const LOOKS = 3;
const GRAIN_COLOURS = ["#d8c08a", "#b98d4f", "#e3d5ae"] as const;

interface Shot {
  readonly actor: Actor;
  readonly purpose: PhotoPurpose;
  readonly of: string;
  readonly takenAt: Date;
  readonly drawing: Uint8Array;
}

/** Draws what the season's growers might have photographed: recorded boxes as they were found, and each set as it was set out. */
export async function takePictures(tx: Transaction, store: PhotoStore, demo: DemoSeason): Promise<void> {
  const source = seededSource(`${DEMO_SEED}/pictures`);
  for (const { actor, purpose, of, takenAt, drawing } of await shots(source, demo)) {
    const stored = must(await store.keep(actor.accountId, drawing));
    const id = idAt(source, takenAt);
    must(await addPhoto(tx, actor, { id, purpose, of, takenAt: takenAt.toISOString(), stored }));
  }
}

async function shots(source: RandomSource, { people, season }: DemoSeason): Promise<readonly Shot[]> {
  const opened = await Promise.all(
    ([0, 1, 2, 3, 4] as TakeClass[]).map((growth) =>
      Promise.all(GRAIN_COLOURS.slice(0, LOOKS).map((grain) => drawOpenedBox(source, growth, grain))),
    ),
  );
  const inWood = await drawSetOut(source, 3);
  const actors = new Map(people.households.flatMap(({ adults }) => adults).map((one) => [one.growerId, one]));
  const lastGrade = new Map(season.grades.map((grade) => [grade.boxId, grade]));
  return season.outings.flatMap((outing, at): Shot[] => {
    const actor = actors.get(outing.growerId)!;
    const boxes = season.boxes.filter(({ outingId }) => outingId === outing.id);
    const out = season.events.find(
      ({ kind, boxId }) => kind === "set-out" && boxes.some(({ id }) => id === boxId),
    );
    if (!out) return [];
    const setOut = {
      purpose: "set-out",
      of: outing.id,
      takenAt: out.occurredAt as Date,
      drawing: inWood,
    } as const;
    const ofBoxes = boxes.flatMap(({ id, position }) => {
      const grade = lastGrade.get(id);
      if (typeof grade?.take !== "number") return [];
      const drawing = opened[grade.take]![(at + position) % LOOKS]!;
      const takenAt = minutesAfter(grade.recordedAt as Date, -5);
      return { actor, purpose: "opened", of: id, takenAt, drawing } as const;
    });
    return [{ actor, ...setOut }, ...ofBoxes];
  });
}
