import type { DemoOuting, DemoTrialRows } from "@/lib/data/demo";
import type { DrawDesign } from "@/lib/engine/design/draw";
import { EarlierDraws } from "@/lib/engine/design/history";
import { appendDraw, type SealedTrial, timeHashOf } from "@/lib/engine/design/ledger";
import { ledgerOutingId } from "@/lib/engine/design/ledger-outing-id";
import { boxCode, outingCode } from "@/lib/engine/design/outing-code";
import { bytesToHex } from "@/lib/engine/random/hash";
import type { RandomSource } from "@/lib/engine/random/source";
import { type DrawInputs, drawInputsSchema, type LedgerEntry } from "@/shared/schemas/draw";
import { BOX_KINDS, COVERS, GUARDS } from "@/shared/vocabulary/box";
import { between, daysAfter, idAt, minutesAfter, pick } from "./chance";
import type { DemoHousehold } from "./people";
import type { Story } from "./stories";

export interface DemoArm {
  readonly id: string;
  readonly code: string;
  readonly grain: string;
  /** Place among the recipes of prisma/seed/variants.ts. */
  readonly variant: number;
}

/** A household's seat in one trial. */
export interface DemoSeat {
  readonly household: DemoHousehold;
  readonly enrolmentId: string;
  readonly pseudonym: string;
  /** The grains they could get hold of. */
  readonly grains: readonly string[];
}

/** A set of boxes about to be drawn. */
export interface PlannedSet {
  readonly seat: DemoSeat;
  readonly growerId: string;
  readonly committedAt: Date;
  readonly boxes: number;
  /** How far it has come; absent: as far as chance took it. */
  readonly story?: Story;
}

/** Whether a set, counted from 0 in order of time, is given up the day after its draw. */
export type GivesUp = (index: number, set: PlannedSet) => boolean;

/** A drawn box as the simulation of its growth needs it. */
export interface DrawnBox {
  readonly id: string;
  readonly outingId: string;
  readonly position: number;
  readonly growerId: string;
  readonly pseudonym: string;
  readonly band: string;
  readonly variant: number;
  readonly setOutAt: Date;
  readonly story?: Story | undefined;
}

type DrawnOuting = DemoOuting & {
  readonly band: string;
  readonly koppenClass: string;
  readonly committedAt: Date;
  readonly createdAt: Date;
};
type DrawnRows = Pick<DemoTrialRows, "boxes" | "draws" | "allocations"> & { readonly outings: DemoOuting[] };

export interface DrawnSets {
  readonly rows: DrawnRows;
  readonly drawn: readonly DrawnBox[];
  readonly ledger: readonly LedgerEntry[];
}

/**
 * Draws the sets one after the other, by the engine and as the server does, in order of time; the recipes of a set
 * given up come back in the household's next one.
 */
export function drawSets(
  source: RandomSource,
  trial: SealedTrial & { readonly secretHex: string; readonly design: DrawDesign },
  arms: readonly DemoArm[],
  planned: readonly PlannedSet[],
  givesUp: GivesUp,
): DrawnSets {
  const rows: DrawnRows = { outings: [], boxes: [], draws: [], allocations: [] };
  const drawn: DrawnBox[] = [];
  const ledger: LedgerEntry[] = [];
  const earlier = new EarlierDraws(arms.map(({ code }) => code));
  const codes = new Set<string>();
  /** By household: the draw whose recipes are to come back. */
  const toReturn = new Map<string, LedgerEntry>();
  const inOrder = [...planned].sort((a, b) => a.committedAt.getTime() - b.committedAt.getTime());
  for (const [index, set] of inOrder.entries()) {
    const { pseudonym } = set.seat;
    if (set.story?.toldTo === "plan") {
      keepPlanned(source, rows, outingRow(source, trial.trialId, set, newCode(source, codes)), set.boxes);
      continue;
    }
    const outing = outingRow(source, trial.trialId, set, newCode(source, codes));
    const timeSalt = bytesToHex(Uint8Array.from({ length: 16 }, () => source.below(256)));
    const inputs = inputsOf(set, outing, arms, earlier, {
      outingId: ledgerOutingId(trial.secretHex, outing.id),
      timeHash: timeHashOf(timeSalt, set.committedAt.toISOString()),
      returns: toReturn.get(pseudonym)?.inputs.outingId,
    });
    const { design, secretHex } = trial;
    const answer = appendDraw(trial, design, ledger.at(-1) ?? null, secretHex, inputs, earlier.of(inputs));
    if (!answer.ok) throw new Error(`A set of the demo can't be drawn: ${answer.reason}.`);
    ledger.push(answer.entry);
    earlier.add(answer.entry);
    toReturn.delete(pseudonym);
    const boxes = keepDraw(source, rows, arms, { set, outing, entry: answer.entry, timeSalt });
    if (givesUp(index, set)) {
      toReturn.set(pseudonym, answer.entry);
      rows.outings.push({ ...outing, ...givenUpAt(daysAfter(set.committedAt, 1)) });
    } else {
      rows.outings.push(outing);
      drawn.push(...boxes);
    }
  }
  return { rows, drawn, ledger };
}

/** A set without a draw yet. */
function keepPlanned(source: RandomSource, rows: DrawnRows, outing: DrawnOuting, boxes: number): void {
  const undrawn = {
    status: "planned",
    band: null,
    koppenClass: null,
    committedAt: null,
    version: 1,
  } as const;
  rows.outings.push({ ...outing, ...undrawn });
  for (let position = 1; position <= boxes; position++) {
    const id = idAt(source, outing.createdAt);
    rows.boxes.push({ id, outingId: outing.id, position, code: boxCode(outing.code, position) });
  }
}

function givenUpAt(abandonedAt: Date) {
  return { status: "abandoned", abandonedAt, abandonReason: "no-time" } as const;
}

function inputsOf(
  set: PlannedSet,
  outing: DrawnOuting,
  arms: readonly DemoArm[],
  earlier: EarlierDraws,
  draw: Pick<DrawInputs, "outingId" | "timeHash" | "returns">,
): DrawInputs {
  const before = earlier.drawnBefore(outing.band);
  return drawInputsSchema.parse({
    ...draw,
    household: set.seat.pseudonym,
    climateGroup: outing.band,
    region: set.seat.household.regionCode,
    boxes: set.boxes,
    grainsAtHand: set.seat.grains,
    arms: arms.map(({ code, grain }) => ({ code, grain, drawnBefore: before.get(code) ?? 0 })),
  });
}

/** Adds the rows of one draw and gives its boxes. */
function keepDraw(
  source: RandomSource,
  rows: DrawnRows,
  arms: readonly DemoArm[],
  draw: {
    readonly set: PlannedSet;
    readonly outing: DrawnOuting;
    readonly entry: LedgerEntry;
    readonly timeSalt: string;
  },
): DrawnBox[] {
  const { set, outing, entry, timeSalt } = draw;
  const { inputs, result, ...link } = entry;
  const { trialId, band, code } = outing;
  const drawId = idAt(source, set.committedAt);
  rows.draws.push({
    ...link,
    id: drawId,
    trialId,
    outingId: outing.id,
    inputs: { ...inputs, grainsAtHand: [...inputs.grainsAtHand], arms: [...inputs.arms] },
    result: [...result],
    drawnAt: set.committedAt,
    timeSalt,
  });
  // Cooking and cooling come between the draw and the wood.
  const setOutAt = minutesAfter(set.committedAt, between(source, 150, 1200));
  return result.map(({ position, arm: armCode }) => {
    const { id: armId, variant } = arms.find((arm) => arm.code === armCode)!;
    const id = idAt(source, set.committedAt);
    rows.boxes.push({ id, outingId: outing.id, position, code: boxCode(code, position) });
    rows.allocations.push({ boxId: id, armId, drawId });
    const { growerId, seat, story } = set;
    const { pseudonym } = seat;
    return { id, outingId: outing.id, position, growerId, pseudonym, band, variant, setOutAt, story };
  });
}

function outingRow(source: RandomSource, trialId: string, set: PlannedSet, code: string): DrawnOuting {
  const { household, enrolmentId, grains } = set.seat;
  const plannedAt = minutesAfter(set.committedAt, -between(source, 10, 2000));
  return {
    id: idAt(source, plannedAt),
    trialId,
    enrolmentId,
    growerId: set.growerId,
    siteId: household.siteId,
    regionId: household.regionId,
    code,
    day: new Date(set.committedAt.toISOString().slice(0, 10)),
    boxKind: pick(source, BOX_KINDS),
    innerLengthCm: between(source, 20, 30),
    innerWidthCm: between(source, 15, 20),
    grainDepthCm: between(source, 4, 6),
    cover: pick(source, COVERS.slice(0, 4)),
    guard: pick(source, GUARDS),
    grainsAtHand: [...grains],
    status: "drawn",
    band: household.band,
    koppenClass: household.koppenClass,
    version: 2,
    createdAt: plannedAt,
    committedAt: set.committedAt,
    abandonedAt: null,
    abandonReason: null,
  };
}

function newCode(source: RandomSource, taken: Set<string>): string {
  for (;;) {
    const code = outingCode(source);
    if (taken.has(code)) continue;
    taken.add(code);
    return code;
  }
}
