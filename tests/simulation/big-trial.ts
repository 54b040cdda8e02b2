import { v7 } from "uuid";
import type { DemoOuting, DemoTrialRows } from "@/lib/data/demo";
import { designOf } from "@/lib/engine/design/draw";
import { EarlierDraws } from "@/lib/engine/design/history";
import { appendDraw, chainStart, sealOf, timeHashOf } from "@/lib/engine/design/ledger";
import { ledgerOutingId } from "@/lib/engine/design/ledger-outing-id";
import { OUTING_CODE_ALPHABET } from "@/lib/engine/design/outing-code";
import { planHash } from "@/lib/engine/design/plan";
import { variantHash } from "@/lib/engine/grain/variant-identity";
import { armCode, DEFAULT_PLAN_CHOICES, planOf } from "@/lib/services/lead/plan";
import { sealSecret } from "@/lib/services/seal";
import { drawInputsSchema, type LedgerEntry } from "@/shared/schemas/draw";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { ClimateGrouping } from "@/shared/vocabulary/climate";
import { BARLEY_RECIPE } from "@/tests/engine/grain/recipes";

const GRAINS = ["barley-pearl", "spelt", "millet", "oats", "rye", "white-rice-long"] as const;
const RATIOS = [1, 1.25, 1.5, 1.75];
const GROUPING: ClimateGrouping = [
  { code: "one", classes: ["Cfb"] },
  { code: "two", classes: ["Csa"] },
  { code: "three", classes: ["Csb"] },
  { code: "four", classes: ["BSk"] },
  { code: "five", classes: ["Dfb"] },
];
const REGIONS = 3;
const DAY_MS = 24 * 3_600_000;

/** Rows of an invented open trial of 24 recipes. */
export interface BigTrial {
  /** What SQL can't make from the draws: boxes, allocations and records are (`FROM_DRAWS`). */
  readonly rows: Omit<DemoTrialRows, "closed" | "agreements" | "boxes" | "allocations" | "events" | "grades">;
  readonly variants: readonly { id: string; contentHash: string; grain: string; content: VariantContent }[];
  readonly regions: readonly {
    id: string;
    code: string;
    name: string;
    south: number;
    west: number;
    north: number;
    east: number;
  }[];
  readonly households: readonly {
    readonly householdId: string;
    readonly growerId: string;
    readonly siteId: string;
    readonly koppenClass: string;
  }[];
}

/** How the sets of a big trial are spread. */
export interface BigTrialShape {
  readonly setsPerHousehold: number;
  readonly boxesPerSet: number;
}

const SHAPE: BigTrialShape = { setsPerHousehold: 10, boxesPerSet: 12 };

/** @param sets how many sets of boxes have been drawn, set out and recorded before */
export function bigTrial(
  sets: number,
  leadAccountId: string,
  { setsPerHousehold, boxesPerSet }: BigTrialShape = SHAPE,
): BigTrial {
  const trialId = v7();
  const contents = GRAINS.flatMap((grain) => RATIOS.map((waterToGrain) => recipe(grain, waterToGrain)));
  const variants = contents.map((content) => ({
    id: v7(),
    contentHash: variantHash(content),
    grain: content.grain,
    content,
  }));
  const arms = variants.map(({ id: variantId, grain, contentHash }, index) => ({
    id: v7(),
    variantId,
    grain,
    contentHash,
    code: armCode(index + 1),
    position: index + 1,
  }));
  const plan = planOf({
    question: "How fast is a draw?",
    endsOn: "2099-12-31",
    grouping: GROUPING,
    boxesMin: 2,
    boxesMax: boxesPerSet,
    arms: arms.map(({ code, grain, contentHash }) => ({ code, grain, variantHash: contentHash })),
    choices: DEFAULT_PLAN_CHOICES,
  });
  const secretHex = "b16".padEnd(64, "0");
  const sealed = { trialId, planHash: planHash(plan), seal: sealOf(secretHex) };
  const regions = Array.from({ length: REGIONS }, (_, at) => ({
    id: v7(),
    code: `region-${at}`,
    name: `Invented region ${at}`,
    ...{ south: 40, west: at, north: 44, east: at + 1 },
  }));
  const households = Array.from({ length: Math.ceil(sets / setsPerHousehold) }, (_, at) => ({
    householdId: v7(),
    growerId: v7(),
    siteId: v7(),
    enrolmentId: v7(),
    pseudonym: `h${at}`,
    band: GROUPING[at % GROUPING.length]!.code,
    koppenClass: GROUPING[at % GROUPING.length]!.classes[0]! as string,
    region: regions[Math.floor(at / GROUPING.length) % REGIONS]!,
    // A third lack two of the grains.
    grains: at % 3 === 0 ? GRAINS.slice(2) : GRAINS.slice(),
  }));
  const rows: Pick<DemoTrialRows, "outings" | "draws"> = { outings: [], draws: [] };
  const earlier = new EarlierDraws(arms.map(({ code }) => code));
  const started = Date.now() - 200 * DAY_MS;
  let previous: LedgerEntry | null = null;
  for (let at = 0; at < sets; at++) {
    const home = households[at % households.length]!;
    const committedAt = new Date(started + at * 60_000);
    const outing = outingRow(trialId, home, at, committedAt);
    const before = earlier.drawnBefore(home.band);
    const inputs = drawInputsSchema.parse({
      outingId: ledgerOutingId(secretHex, outing.id),
      household: home.pseudonym,
      climateGroup: home.band,
      region: home.region.code,
      boxes: boxesPerSet,
      grainsAtHand: home.grains,
      arms: arms.map(({ code, grain }) => ({ code, grain, drawnBefore: before.get(code) ?? 0 })),
      timeHash: timeHashOf("5a".repeat(16), committedAt.toISOString()),
    });
    const drawn = appendDraw(sealed, designOf(plan), previous, secretHex, inputs, earlier.of(inputs));
    if (!drawn.ok) throw new Error(drawn.reason);
    const { entry } = drawn;
    earlier.add(entry);
    previous = entry;
    rows.outings.push(outing);
    const { inputs: _, result, ...link } = entry;
    rows.draws.push({
      ...link,
      id: v7(),
      trialId,
      outingId: outing.id,
      inputs: JSON.parse(JSON.stringify(inputs)),
      result: [...result],
      drawnAt: committedAt,
      timeSalt: "5a".repeat(16),
    });
  }
  return {
    variants,
    regions,
    households,
    rows: {
      ...rows,
      trial: {
        id: trialId,
        slug: "big-trial",
        title: "A big trial (invented)",
        question: plan.question,
        invented: true,
        joinCode: "BIGTRIAL",
        boxesMin: 2,
        boxesMax: boxesPerSet,
        endsOn: new Date(plan.endsOn),
        grouping: JSON.parse(JSON.stringify(GROUPING)),
      },
      opened: {
        plan: JSON.parse(JSON.stringify(plan)),
        planHash: sealed.planHash,
        seal: sealed.seal,
        openedAt: new Date(started),
        drawCount: sets,
        lastHash: previous?.hash ?? chainStart(sealed),
      },
      secret: { trialId, ciphertext: sealSecret(secretHex) },
      leadAccountIds: [leadAccountId],
      regions: regions.map(({ id: regionId }) => ({ trialId, regionId, capacity: 100_000 })),
      arms: arms.map(({ id, variantId, code, position }) => ({ id, trialId, variantId, code, position })),
      enrolments: households.map(({ enrolmentId: id, householdId, pseudonym, region }) => ({
        id,
        trialId,
        householdId,
        regionId: region.id,
        pseudonym,
      })),
    },
  };
}

const recipe = (grain: (typeof GRAINS)[number], waterToGrain: number): VariantContent => ({
  ...BARLEY_RECIPE,
  grain,
  waterToGrain,
});

/** A set about to be drawn or drawn already; its code follows from its place among the sets. */
function outingRow(
  trialId: string,
  home: {
    enrolmentId: string;
    growerId: string;
    siteId: string;
    region: { id: string };
    grains: readonly string[];
    band: string;
    koppenClass: string;
  },
  at: number,
  committedAt: Date,
): DemoOuting {
  const letters = OUTING_CODE_ALPHABET.length;
  const code = [at, Math.floor(at / letters), Math.floor(at / letters ** 2)]
    .map((digit) => OUTING_CODE_ALPHABET[digit % letters])
    .join("");
  return {
    id: v7(),
    trialId,
    enrolmentId: home.enrolmentId,
    growerId: home.growerId,
    siteId: home.siteId,
    regionId: home.region.id,
    code,
    day: committedAt,
    boxKind: "softwood",
    innerLengthCm: 30,
    innerWidthCm: 20,
    grainDepthCm: 5,
    cover: "paper",
    guard: "none",
    grainsAtHand: [...home.grains],
    status: "drawn",
    band: home.band,
    koppenClass: home.koppenClass,
    committedAt,
    abandonedAt: null,
    abandonReason: null,
  };
}

/** SQL that makes the rest, one statement after the other: boxes and recipes as drawn; five events of each box; every fourteenth lost, the others recorded. */
export const FROM_DRAWS = [
  `INSERT INTO box (id, outing_id, position, code)
   SELECT gen_random_uuid(), outing.id, (placed->>'position')::int, outing.code || '-' || (placed->>'position')
   FROM draw JOIN outing ON outing.id = draw.outing_id, jsonb_array_elements(draw.result) placed`,
  `INSERT INTO allocation (box_id, arm_id, draw_id)
   SELECT box.id, arm.id, draw.id FROM draw, jsonb_array_elements(draw.result) placed, box, arm
   WHERE box.outing_id = draw.outing_id AND box.position = (placed->>'position')::int
     AND arm.trial_id = draw.trial_id AND arm.code = placed->>'arm'`,
  `UPDATE outing SET status = 'drawn', committed_at = draw.drawn_at FROM draw WHERE draw.outing_id = outing.id`,
  `INSERT INTO box_event (id, box_id, grower_id, kind, occurred_at, offset_minutes, received_at)
   SELECT gen_random_uuid(), box.id, outing.grower_id,
     CASE WHEN kind = 'growth-recordable' AND abs(hashtext(box.id::text)) % 14 = 0
       THEN 'growth-not-recordable' ELSE kind END, committed_at + days * interval '1 day', 0, committed_at + days * interval '1 day'
   FROM box JOIN outing ON outing.id = box.outing_id,
     (VALUES ('cooked-as-drawn', 0), ('set-out', 0), ('opened', 6), ('nothing-happened', 6), ('growth-recordable', 6)) told (kind, days)`,
  `INSERT INTO grade (id, box_id, grader_id, revision, measures, take, recorded_at, offset_minutes, received_at)
   SELECT gen_random_uuid(), box.id, outing.grower_id, 1, '{}', abs(hashtext(box.id::text)) % 5,
     committed_at + interval '6 days', 0, committed_at + interval '6 days'
   FROM box JOIN outing ON outing.id = box.outing_id WHERE abs(hashtext(box.id::text)) % 14 > 0`,
];
