import type { PauseReason } from "@/shared/vocabulary/desk";

/** Words for a trial that stands still for a while. */
export const pauseMessages = {
  reasons: {
    fire: "fire, or danger of it",
    drought: "drought",
    storm: "storm or flood",
    "no-access": "the land may not be entered",
    other: "another reason",
  } satisfies Readonly<Record<PauseReason, string>>,
  stands: (reason: string, since: string) => `Paused since ${since}: ${reason}.`,
  title: "Pauses",
  meaning:
    "No recipes are picked until the trial goes on. Boxes that are out already can still be fetched and recorded; none of these days counts as late.",
  caution:
    "No box is worth a risk: stay away from your boxes for as long as it is dangerous or forbidden to go there. What the authorities and the landowner say comes first.",
  ended: (reason: string, from: string, to: string) => `${from} to ${to}: ${reason}`,
  standing: (reason: string, from: string) => `Since ${from}: ${reason}`,
} as const;
