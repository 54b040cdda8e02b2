import type { DemoTrialRows } from "@/lib/data/demo";
import { sha256Hex } from "@/lib/engine/random/hash";
import type { RandomSource } from "@/lib/engine/random/source";
import { newSecretHex } from "@/lib/services/seal";
import { DEMO_CLOSED_TRIAL, DEMO_OPEN_TRIAL } from "@/prisma/seed/trials";
import { DEMO_VARIANTS } from "@/prisma/seed/variants";
import { between, daysAfter, minutesAfter, pick } from "./chance";
import { CLOSED_CHOICES, OPEN_CHOICES } from "./choices";
import { makeTrial } from "./make-trial";
import type { DemoPeople } from "./people";
import { DEMO_SEED } from "./truth";

/** The closed trial ran this long and closed this long before the demo was loaded. */
const SEASON_DAYS = 230;
const CLOSED_DAYS_AGO = 20;
const OPEN_SINCE_DAYS = 30;
const OPEN_FOR_DAYS = 150;
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
          growerId: pick(source, seat.household.growerIds),
          committedAt: minutesAfter(
            openedAt,
            between(source, 7 + turn * 65, 65 + turn * 65) * 24 * 60 + between(source, 0, 600),
          ),
          boxes: pick(source, [6, 6, 6, 6, 6, 4, 3]),
        })),
      ),
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
        growerId: seat.household.growerIds[0]!,
        // The demo's own grower comes first, with boxes still out.
        committedAt: daysAfter(now, index === 0 ? -2 : -between(source, 3, 24)),
        boxes: 4,
      })),
  });
}

function dayOf(at: Date): string {
  return at.toISOString().slice(0, 10);
}
