import type { DemoTrialRows } from "@/lib/data/demo";
import { chainStart, sealOf } from "@/lib/engine/design/ledger";
import { planHash } from "@/lib/engine/design/plan";
import { variantHash } from "@/lib/engine/grain/variant-identity";
import { sha256Hex } from "@/lib/engine/random/hash";
import type { RandomSource } from "@/lib/engine/random/source";
import { armCode, planOf } from "@/lib/services/lead/plan";
import { newSecretHex, sealSecret } from "@/lib/services/seal";
import { DEMO_REGIONS } from "@/prisma/seed/regions";
import { DEMO_CLOSED_TRIAL, DEMO_GROUPING, DEMO_OPEN_TRIAL } from "@/prisma/seed/trials";
import { DEMO_VARIANTS } from "@/prisma/seed/variants";
import { AGREEMENT_VERSION } from "@/shared/schemas/enrolment";
import { LEAST_MINIMUM } from "@/shared/schemas/plan";
import { between, daysAfter, idAt, minutesAfter, pick } from "./chance";
import { growBoxes } from "./growth";
import { type DemoHousehold, type DemoPeople, randomCode } from "./people";
import { type DemoArm, type DemoSeat, drawSets, type PlannedSet } from "./sets";
import { DEMO_SEED, SHARES } from "./truth";

/** The closed trial ran this long and closed this long before the demo was loaded. */
const SEASON_DAYS = 230;
const CLOSED_DAYS_AGO = 20;
const OPEN_SINCE_DAYS = 30;
const OPEN_FOR_DAYS = 150;
/** Every so-manieth set was drawn and then given up. */
const ABANDONED_EVERY = 50;

interface TrialOutline {
  readonly seed: typeof DEMO_CLOSED_TRIAL | typeof DEMO_OPEN_TRIAL;
  readonly secretHex: string;
  readonly variants: readonly number[];
  readonly openedAt: Date;
  readonly closedAt: Date | null;
  /** `YYYY-MM-DD` */
  readonly endsOn: string;
  readonly households: readonly DemoHousehold[];
  readonly plan: (seats: readonly DemoSeat[]) => PlannedSet[];
  readonly now: Date;
}

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

function makeTrial(source: RandomSource, people: DemoPeople, outline: TrialOutline): DemoTrialRows {
  const { seed, secretHex, openedAt, closedAt, endsOn } = outline;
  const arms = outline.variants.map((variant, index): DemoArm & { variantId: string; position: number } => ({
    id: idAt(source, openedAt),
    code: armCode(index + 1),
    grain: DEMO_VARIANTS[variant]!.content.grain,
    variant,
    variantId: DEMO_VARIANTS[variant]!.id,
    position: index + 1,
  }));
  const plan = planOf({
    question: seed.question,
    minimum: LEAST_MINIMUM,
    endsOn,
    grouping: DEMO_GROUPING,
    boxesMin: seed.boxesMin,
    boxesMax: seed.boxesMax,
    arms: arms.map(({ code, grain, variant }) => ({
      code,
      grain,
      variantHash: variantHash(DEMO_VARIANTS[variant]!.content),
    })),
  });
  const sealed = { trialId: seed.id, planHash: planHash(plan), seal: sealOf(secretHex) };
  const grains = [...new Set(arms.map(({ grain }) => grain))];
  const seats = outline.households.map((household) => takeSeat(source, household, grains, openedAt));
  const { rows, drawn, ledger } = drawSets(source, { ...sealed, secretHex }, arms, outline.plan(seats));
  const given = giveUpSome(rows.outings, closedAt);
  const used = drawn.filter((box) => !given.has(box.outingId));
  return {
    ...rows,
    ...growBoxes(source, used, people.maskedGraderId, closedAt ?? outline.now),
    trial: {
      id: seed.id,
      slug: seed.slug,
      title: seed.title,
      question: seed.question,
      invented: true,
      joinCode: seed.joinCode,
      boxesMin: seed.boxesMin,
      boxesMax: seed.boxesMax,
      endsOn: new Date(endsOn),
      grouping: DEMO_GROUPING.map(({ code, classes }) => ({ code, classes: [...classes] })),
      createdAt: daysAfter(openedAt, -10),
    },
    opened: {
      plan: JSON.parse(JSON.stringify(plan)),
      planHash: sealed.planHash,
      seal: sealed.seal,
      openedAt,
      drawCount: ledger.length,
      lastHash: ledger.at(-1)?.hash ?? chainStart(sealed),
    },
    closed: closedAt && { at: closedAt, secretHex },
    secret: { trialId: seed.id, ciphertext: sealSecret(secretHex) },
    leadAccountId: people.leadAccountId,
    regions: DEMO_REGIONS.map(({ id }) => ({
      trialId: seed.id,
      regionId: id,
      capacity: seed.capacity,
      seatsTaken: seats.filter(({ household }) => household.regionId === id).length,
    })),
    arms: arms.map(({ id, code, variantId, position }) => ({
      id,
      trialId: seed.id,
      code,
      variantId,
      position,
    })),
    enrolments: seats.map(({ household, enrolmentId, pseudonym, joinedAt }) => ({
      id: enrolmentId,
      trialId: seed.id,
      householdId: household.id,
      regionId: household.regionId,
      pseudonym,
      joinedAt,
    })),
    agreements: seats.flatMap(({ household, joinedAt }) =>
      household.growerIds.map((growerId) => ({
        id: idAt(source, joinedAt),
        trialId: seed.id,
        growerId,
        version: AGREEMENT_VERSION,
        agreedAt: joinedAt,
      })),
    ),
  };
}

/** A seat taken within the first days; some can't get hold of one of the grains. */
function takeSeat(
  source: RandomSource,
  household: DemoHousehold,
  grains: readonly string[],
  openedAt: Date,
): DemoSeat & { readonly joinedAt: Date } {
  const joinedAt = minutesAfter(openedAt, between(source, 10, 6 * 24 * 60));
  const missing = source.unit() < SHARES.grainMissing ? pick(source, grains) : null;
  return {
    household,
    enrolmentId: idAt(source, joinedAt),
    pseudonym: randomCode(source, 6),
    grains: grains.filter((grain) => grain !== missing),
    joinedAt,
  };
}

/** Marks a few drawn sets as given up the next day; only in a closed trial. Says which. */
function giveUpSome(outings: DemoTrialRows["outings"], closedAt: Date | null): ReadonlySet<string> {
  const given = new Set<string>();
  if (!closedAt) return given;
  outings.forEach((outing, index) => {
    if (index % ABANDONED_EVERY !== ABANDONED_EVERY / 2) return;
    given.add(outing.id);
    outings[index] = {
      ...outing,
      status: "abandoned",
      abandonedAt: daysAfter(outing.committedAt, 1),
      abandonReason: "no-time",
    };
  });
  return given;
}

function dayOf(at: Date): string {
  return at.toISOString().slice(0, 10);
}
