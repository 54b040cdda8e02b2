import type { RandomSource } from "@/lib/engine/random/source";
import type { KeptEventDetail } from "@/shared/schemas/box-event";
import type { BoxEventKind } from "@/shared/vocabulary/box";
import type { TakeClass } from "@/shared/vocabulary/growth";
import { between, daysAfter, idAt, minutesAfter } from "./chance";
import { gradeRow, measuresOf, neighbour, OFFSET_MINUTES, type RecordRows } from "./readings";
import type { DrawnBox } from "./sets";

/** What befell one box of a set. */
type Incident =
  | "animal"
  | "rain-inside"
  | "label-gone"
  | "cooked-otherwise"
  | "box-short"
  | "corrected-twice";

/** How far a set of boxes has come, and what befell its second box on the way. */
export interface Story {
  readonly toldTo: "plan" | "draw" | "set-out" | "fetched" | "recorded" | "given-up";
  readonly drawnDaysAgo: number;
  readonly incident?: Incident;
}

/** Days from set-out to the fetch in the trial that stories are told of: its plan's, so that they hold in every season. */
export const STORY_FETCH_DAYS = 7;

/** A recorded set was drawn so many days ago or more: before the trial's pause. */
const LONG_AGO = 26;

const EARLIER: Story = { toldTo: "recorded", drawnDaysAgo: LONG_AGO + 8 };

/** The sets of each household of a climate group, in order; a household without one has no seat yet and waits for it. */
export const STORIES: readonly (readonly Story[])[] = [
  [EARLIER, { toldTo: "set-out", drawnDaysAgo: STORY_FETCH_DAYS + 1 }], // due
  [{ toldTo: "recorded", drawnDaysAgo: LONG_AGO }],
  [{ toldTo: "recorded", drawnDaysAgo: LONG_AGO + 1, incident: "animal" }],
  [{ toldTo: "recorded", drawnDaysAgo: LONG_AGO + 2 }],
  [{ toldTo: "recorded", drawnDaysAgo: LONG_AGO + 3, incident: "corrected-twice" }],
  [{ toldTo: "recorded", drawnDaysAgo: LONG_AGO + 4, incident: "rain-inside" }],
  [{ toldTo: "recorded", drawnDaysAgo: LONG_AGO + 5, incident: "label-gone" }],
  [{ toldTo: "recorded", drawnDaysAgo: LONG_AGO + 6, incident: "cooked-otherwise" }],
  [{ toldTo: "recorded", drawnDaysAgo: LONG_AGO + 7, incident: "box-short" }],
  [{ toldTo: "set-out", drawnDaysAgo: STORY_FETCH_DAYS + 6 }], // overdue
  [{ toldTo: "fetched", drawnDaysAgo: STORY_FETCH_DAYS + 2 }], // by a helper, not recorded yet
  [{ toldTo: "set-out", drawnDaysAgo: 2 }],
  [{ toldTo: "draw", drawnDaysAgo: 1 }],
  [
    { toldTo: "given-up", drawnDaysAgo: 15 },
    { toldTo: "plan", drawnDaysAgo: 0 },
  ],
  [],
];

/** The position of the box that an incident befalls. */
const BEFALLEN = 2;

/** Tells of one box what its set's story says. */
export function tellStory(
  source: RandomSource,
  rows: RecordRows,
  box: DrawnBox & { readonly story: Story },
  growth: TakeClass,
): void {
  const { id: boxId, growerId, setOutAt } = box;
  const { toldTo } = box.story;
  if (toldTo === "draw") return;
  const incident = box.position === BEFALLEN ? box.story.incident : undefined;
  const tell = (kind: BoxEventKind, occurredAt: Date, detail?: KeptEventDetail) => {
    const id = idAt(source, occurredAt);
    const moment = { occurredAt, offsetMinutes: OFFSET_MINUTES, receivedAt: minutesAfter(occurredAt, 2) };
    const viaHelper = toldTo === "fetched" && kind === "fetched";
    rows.events.push({ id, boxId, growerId, kind, viaHelper, ...moment, ...(detail && { detail }) });
    return id;
  };
  const cookedAt = minutesAfter(setOutAt, -100);
  if (incident === "box-short") {
    const becauseOf = tell("not-cooked", cookedAt, { kind: "not-cooked", reason: "box-short" });
    const reason = { kind: "growth-not-recordable", reason: "not-cooked", becauseOf } as const;
    tell("growth-not-recordable", cookedAt, reason);
    return;
  }
  if (incident === "cooked-otherwise") tell("cooked-otherwise", cookedAt, WETTER_AND_LONGER);
  else tell("cooked-as-drawn", cookedAt);
  tell("set-out", setOutAt);
  if (toldTo === "set-out") return;
  const fetchedAt = daysAfter(setOutAt, STORY_FETCH_DAYS);
  tell("fetched", fetchedAt);
  if (toldTo === "fetched") return;
  const openedAt = minutesAfter(fetchedAt, 40);
  tell("opened", openedAt);
  if (incident === "animal" || incident === "rain-inside" || incident === "label-gone") {
    tellLoss(tell, incident, fetchedAt);
    return;
  }
  tell("nothing-happened", fetchedAt);
  recordStory(source, rows, box, { growth, openedAt, looks: incident === "corrected-twice" ? 3 : 1 });
}

const WETTER_AND_LONGER: KeptEventDetail = {
  kind: "cooked-otherwise",
  differs: ["more-water", "longer"],
  grain: null,
  cookMinutes: 50,
};

function tellLoss(
  tell: (kind: BoxEventKind, at: Date, detail?: KeptEventDetail) => string,
  incident: "animal" | "rain-inside" | "label-gone",
  at: Date,
): void {
  if (incident === "label-gone") {
    const becauseOf = tell(incident, at, { kind: incident, known: false });
    tell("growth-not-recordable", at, { kind: "growth-not-recordable", reason: "unidentified", becauseOf });
    return;
  }
  tell(incident, at);
  const reason = incident === "animal" ? "content-gone" : "other";
  tell("growth-not-recordable", at, { kind: "growth-not-recordable", reason });
}

/** One or more looks at a box, the last of which sees its growth. */
function recordStory(
  source: RandomSource,
  rows: RecordRows,
  box: DrawnBox,
  course: { readonly growth: TakeClass; readonly openedAt: Date; readonly looks: number },
): void {
  const { growth, openedAt, looks } = course;
  for (let revision = 1; revision <= looks; revision++) {
    const at = minutesAfter(openedAt, 10 + 300 * (revision - 1));
    const seen = revision === looks ? growth : neighbour(source, growth);
    const by = { graderId: box.growerId, masked: false, revision };
    const receivedAt = minutesAfter(at, between(source, 1, 60));
    rows.grades.push(gradeRow(source, box, by, { at, receivedAt, measures: measuresOf(source, seen) }));
  }
}
