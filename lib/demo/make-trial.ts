import type { DemoDraftRows, DemoTrialRows } from "@/lib/data/demo";
import { designOf } from "@/lib/engine/design/draw";
import { chainStart, sealOf } from "@/lib/engine/design/ledger";
import { planHash } from "@/lib/engine/design/plan";
import { variantHash } from "@/lib/engine/grain/variant-identity";
import type { RandomSource } from "@/lib/engine/random/source";
import { armCode, planOf } from "@/lib/services/lead/plan";
import { sealSecret } from "@/lib/services/seal";
import { DEMO_REGIONS } from "@/prisma/seed/regions";
import { DEMO_GROUPING, type DemoTrialSeed } from "@/prisma/seed/trials";
import { DEMO_VARIANTS } from "@/prisma/seed/variants";
import { AGREEMENT_VERSION } from "@/shared/schemas/enrolment";
import type { PlanChoices, TrialPlan } from "@/shared/schemas/plan";
import { between, daysAfter, idAt, minutesAfter, pick } from "./chance";
import { growBoxes } from "./growth";
import { type DemoHousehold, type DemoPeople, randomCode } from "./people";
import { type DemoArm, type DemoSeat, drawSets, type PlannedSet } from "./sets";
import { SHARES } from "./truth";

/** Every so-manieth set of a closed trial was drawn and then given up. */
const ABANDONED_EVERY = 50;

export interface TrialOutline {
  readonly seed: DemoTrialSeed;
  /** The trial it is the next season of. */
  readonly followsId?: string;
  readonly secretHex: string;
  readonly variants: readonly number[];
  readonly openedAt: Date;
  readonly closedAt: Date | null;
  readonly choices: PlanChoices;
  /** `YYYY-MM-DD` */
  readonly endsOn: string;
  readonly households: readonly DemoHousehold[];
  readonly plan: (seats: readonly DemoSeat[]) => PlannedSet[];
  readonly now: Date;
}

type Arm = DemoArm & { readonly variantId: string; readonly position: number };
type Seat = DemoSeat & { readonly joinedAt: Date };

/** All rows of a trial: its plan sealed, its sets drawn, its boxes grown. */
export function makeTrial(source: RandomSource, people: DemoPeople, outline: TrialOutline): DemoTrialRows {
  const { seed, secretHex, openedAt, closedAt } = outline;
  const arms = outline.variants.map((variant, index) => armAt(source, openedAt, variant, index + 1));
  const plan = demoPlan(outline, arms);
  const sealed = { trialId: seed.id, planHash: planHash(plan), seal: sealOf(secretHex) };
  const grains = [...new Set(arms.map(({ grain }) => grain))];
  const seats = outline.households.map((household) => takeSeat(source, household, grains, openedAt));
  const { rows, drawn, ledger } = drawSets(
    source,
    { ...sealed, secretHex, design: designOf(plan) },
    arms,
    outline.plan(seats),
    (index, { story }) =>
      story?.toldTo === "given-up" || (closedAt !== null && index % ABANDONED_EVERY === ABANDONED_EVERY / 2),
  );
  return {
    ...rows,
    ...growBoxes(source, drawn, people.maskedGraderId, closedAt ?? outline.now),
    ...draftRows(outline, people, arms),
    ...seatRows(source, seed, seats),
    closed: closedAt && { at: closedAt, secretHex },
    secret: { trialId: seed.id, ciphertext: sealSecret(secretHex) },
    opened: {
      plan: JSON.parse(JSON.stringify(plan)),
      planHash: sealed.planHash,
      seal: sealed.seal,
      openedAt,
      drawCount: ledger.length,
      lastHash: ledger.at(-1)?.hash ?? chainStart(sealed),
    },
  };
}

function armAt(source: RandomSource, openedAt: Date, variant: number, position: number): Arm {
  const { id: variantId, content } = DEMO_VARIANTS[variant]!;
  const id = idAt(source, openedAt);
  return { id, code: armCode(position), grain: content.grain, variant, variantId, position };
}

function demoPlan({ seed, endsOn, choices }: TrialOutline, arms: readonly Arm[]): TrialPlan {
  return planOf({
    question: seed.question,
    choices,
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
}

/** A trial before it opens: no seat is taken, no plan frozen. */
export function makeDraft(
  source: RandomSource,
  people: DemoPeople,
  outline: Pick<TrialOutline, "seed" | "variants" | "endsOn"> & { readonly now: Date },
): DemoDraftRows {
  const openedAt = outline.now;
  const arms = outline.variants.map((variant, index) => armAt(source, openedAt, variant, index + 1));
  const { id: trialId, capacity } = outline.seed;
  const regions = DEMO_REGIONS.map(({ id }) => ({ trialId, regionId: id, capacity: capacity ?? 0 }));
  return { ...draftRows({ ...outline, openedAt }, people, arms), regions };
}

function draftRows(
  { seed, followsId, openedAt, endsOn }: Pick<TrialOutline, "seed" | "followsId" | "openedAt" | "endsOn">,
  { lead, coLead }: DemoPeople,
  arms: readonly Arm[],
): Pick<DemoDraftRows, "trial" | "leadAccountIds" | "arms"> {
  const { id: trialId, slug, title, question, joinCode, boxesMin, boxesMax } = seed;
  return {
    trial: {
      id: trialId,
      slug,
      title,
      question,
      invented: true,
      joinCode,
      boxesMin,
      boxesMax,
      endsOn: new Date(endsOn),
      grouping: DEMO_GROUPING.map(({ code, classes }) => ({ code, classes: [...classes] })),
      followsId: followsId ?? null,
      createdAt: daysAfter(openedAt, -10),
    },
    leadAccountIds: [lead.accountId, coLead.accountId],
    arms: arms.map(({ id, code, variantId, position }) => ({ id, trialId, code, variantId, position })),
  };
}

function seatRows(
  source: RandomSource,
  { id: trialId, capacity }: DemoTrialSeed,
  seats: readonly Seat[],
): Pick<DemoTrialRows, "regions" | "enrolments" | "agreements"> {
  return {
    regions: DEMO_REGIONS.map(({ id: regionId }) => {
      const seatsTaken = seats.filter(({ household }) => household.regionId === regionId).length;
      return { trialId, regionId, capacity: capacity ?? seatsTaken, seatsTaken };
    }),
    enrolments: seats.map(({ household, enrolmentId, pseudonym, joinedAt }) => ({
      id: enrolmentId,
      trialId,
      householdId: household.id,
      regionId: household.regionId,
      pseudonym,
      joinedAt,
    })),
    agreements: seats.flatMap(({ household, joinedAt }) =>
      household.adults.map(({ growerId }) => ({
        id: idAt(source, joinedAt),
        trialId,
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
): Seat {
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
