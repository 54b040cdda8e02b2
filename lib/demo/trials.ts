import type { DemoDraftRows, DemoTrialRows } from "@/lib/data/demo";
import { sha256Hex } from "@/lib/engine/random/hash";
import type { RandomSource } from "@/lib/engine/random/source";
import { newSecretHex } from "@/lib/services/seal";
import {
  DEMO_CLOSED_TRIAL,
  DEMO_DRAFT_TRIAL,
  DEMO_NEXT_SEASON_TRIAL,
  DEMO_OPEN_TRIAL,
  DEMO_RELEASED_TRIAL,
} from "@/prisma/seed/trials";
import { DEMO_VARIANTS } from "@/prisma/seed/variants";
import { between, daysAfter, minutesAfter, pick } from "./chance";
import { CLOSED_CHOICES, FIRM_CHOICES, OPEN_CHOICES } from "./choices";
import { makeDraft, makeTrial } from "./make-trial";
import type { DemoPeople } from "./people";
import { STORIES } from "./stories";
import { DEMO_SEED } from "./truth";

/** The closed trial ran this long and closed this long before the demo was loaded. */
const SEASON_DAYS = 230;
const CLOSED_DAYS_AGO = 20;
const OPEN_SINCE_DAYS = 30;
const OPEN_FOR_DAYS = 150;
/** The small season that is released, counted back from now. */
const RELEASED = { openedDaysAgo: 480, closedDaysAgo: 390 } as const;
const NEXT_SEASON_SINCE_DAYS = 45;

/** Rice, wheat and barley, each cooked firm. */
const FIRM_VARIANTS = [0, 2, 4] as const;

/** A finished season: 60 households, 150 sets of boxes, six recipes, closed and to be pooled. Its secret follows from the seed. */
export function closedTrial(source: RandomSource, people: DemoPeople, now: Date): DemoTrialRows {
  const closedAt = daysAfter(now, -CLOSED_DAYS_AGO);
  const openedAt = daysAfter(closedAt, -SEASON_DAYS);
  return makeTrial(source, people, {
    seed: DEMO_CLOSED_TRIAL,
    secretHex: sha256Hex(`${DEMO_SEED}/secret`),
    variants: DEMO_VARIANTS.map((_, index) => index),
    openedAt,
    closedAt,
    endsOn: dayOf(closedAt),
    choices: CLOSED_CHOICES,
    households: people.households,
    now,
    plan: (seats) =>
      seats.flatMap((seat, index) =>
        Array.from({ length: 2 + (index % 2) }, (_, turn) => ({
          seat,
          growerId: pick(source, seat.household.adults).growerId,
          committedAt: minutesAfter(
            openedAt,
            between(source, 7 + turn * 65, 65 + turn * 65) * 24 * 60 + between(source, 0, 600),
          ),
          boxes: pick(source, [6, 6, 6, 6, 6, 4, 3]),
        })),
      ),
  });
}

/** A small season of every other household, closed; its release is made when it is loaded. */
export function releasedTrial(source: RandomSource, people: DemoPeople, now: Date): DemoTrialRows {
  const closedAt = daysAfter(now, -RELEASED.closedDaysAgo);
  const openedAt = daysAfter(now, -RELEASED.openedDaysAgo);
  return makeTrial(source, people, {
    seed: DEMO_RELEASED_TRIAL,
    secretHex: sha256Hex(`${DEMO_SEED}/released secret`),
    variants: FIRM_VARIANTS,
    openedAt,
    closedAt,
    endsOn: dayOf(closedAt),
    choices: FIRM_CHOICES,
    households: people.households.filter(({ turn }) => turn % 2 === 0),
    now,
    plan: (seats) =>
      seats.flatMap((seat) =>
        [0, 1].map((turn) => ({
          seat,
          growerId: pick(source, seat.household.adults).growerId,
          committedAt: daysAfter(openedAt, between(source, 8 + turn * 35, 40 + turn * 35)),
          boxes: 3,
        })),
      ),
  });
}

/** The season after it: households in every state (stories.ts), short of the plan's minimum; its secret is new. */
export function nextSeasonTrial(source: RandomSource, people: DemoPeople, now: Date): DemoTrialRows {
  return makeTrial(source, people, {
    seed: DEMO_NEXT_SEASON_TRIAL,
    followsId: DEMO_RELEASED_TRIAL.id,
    secretHex: newSecretHex(),
    variants: FIRM_VARIANTS,
    openedAt: daysAfter(now, -NEXT_SEASON_SINCE_DAYS),
    closedAt: null,
    endsOn: dayOf(daysAfter(now, OPEN_FOR_DAYS)),
    choices: FIRM_CHOICES,
    households: people.households.filter(({ turn }) => STORIES[turn]!.length > 0),
    now,
    plan: (seats) =>
      seats.flatMap((seat) => {
        const { adults, turn } = seat.household;
        return STORIES[turn]!.map((story) => ({
          ...{ seat, story, growerId: adults[0]!.growerId, boxes: 3 },
          committedAt: daysAfter(now, -story.drawnDaysAgo),
        }));
      }),
  });
}

/** Of the trial that waits to be opened. */
export function draftedTrial(source: RandomSource, people: DemoPeople, now: Date): DemoDraftRows {
  return makeDraft(source, people, {
    seed: DEMO_DRAFT_TRIAL,
    variants: [1, 3, 5],
    endsOn: dayOf(daysAfter(now, SEASON_DAYS)),
    now,
  });
}

/** A trial to join, with a few sets under way; its secret is new with every load, so that nobody can foresee a draw. */
export function openTrial(source: RandomSource, people: DemoPeople, now: Date): DemoTrialRows {
  const openedAt = daysAfter(now, -OPEN_SINCE_DAYS);
  return makeTrial(source, people, {
    seed: DEMO_OPEN_TRIAL,
    secretHex: newSecretHex(),
    variants: [0, 1, 4, 5],
    openedAt,
    closedAt: null,
    endsOn: dayOf(daysAfter(now, OPEN_FOR_DAYS)),
    choices: OPEN_CHOICES,
    households: people.households.filter((_, index) => index % 10 === 0),
    now,
    plan: (seats) =>
      seats.map((seat, index) => ({
        seat,
        growerId: seat.household.adults[0]!.growerId,
        // The demo's own grower comes first, with boxes still out.
        committedAt: daysAfter(now, index === 0 ? -2 : -between(source, 3, 24)),
        boxes: 4,
      })),
  });
}

function dayOf(at: Date): string {
  return at.toISOString().slice(0, 10);
}
