import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import {
  deleteJar,
  findOwnJar,
  insertJar,
  type JarableRow,
  type JarContents,
  jarsOf,
  lockOwnBoxes,
  recordedBoxes,
  replaceJar,
} from "@/lib/data/jars";
import { assumedUptake } from "@/lib/engine/grain/assumed-uptake";
import { cookedMoisture, predictMoisture } from "@/lib/engine/grain/moisture";
import { type SyrupEstimate, syrupOf } from "@/lib/engine/jar/water-activity";
import { done, type Result, refuse } from "@/lib/errors/result";
import { GRAIN_FIGURES } from "@/lib/reference/grains";
import { type JarEdit, type JarInput, type JarRemoval, MOST_JAR_BOXES } from "@/shared/schemas/jar";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import { isAhead, momentOf } from "./moments";

/** Recorded boxes to choose from: more than a season's. */
const CHOICES = 60;
const PAGE = 20;

type JarRefusal =
  | "NOT_FOUND"
  | "BOX_NOT_RECORDED"
  | "MORE_THAN_BOX_HELD"
  | "MOMENT_IN_FUTURE"
  | "JAR_BEFORE_OPENING";

/** Keeps a jar of the actor's own recorded boxes. */
export async function makeJar(
  tx: Transaction,
  actor: Actor,
  input: JarInput,
): Promise<Result<{ readonly jarId: string }, JarRefusal>> {
  const contents = await possibleContents(tx, actor, input, null);
  if (!contents.ok) return contents;
  const kept = await insertJar(tx, { ...contents.value, id: input.id, growerId: actor.growerId });
  return kept ? done({ jarId: input.id }) : refuse("NOT_FOUND");
}

/** Puts right what was told of a jar of the actor's, as long as it is still what the correction was made from. */
export async function editJar(
  tx: Transaction,
  actor: Actor,
  input: JarEdit,
): Promise<Result<{ readonly jarId: string }, JarRefusal | "CHANGED_MEANWHILE">> {
  const { jarId, basedOn } = input;
  if (!(await findOwnJar(tx, actor.growerId, jarId))) return refuse("NOT_FOUND");
  const contents = await possibleContents(tx, actor, input, jarId);
  if (!contents.ok) return contents;
  return (await replaceJar(tx, jarId, basedOn, contents.value))
    ? done({ jarId })
    : refuse("CHANGED_MEANWHILE");
}

export async function removeJar(
  tx: Transaction,
  actor: Actor,
  { jarId }: JarRemoval,
): Promise<Result<{ readonly jarId: string }, "NOT_FOUND">> {
  return (await deleteJar(tx, actor.growerId, jarId)) ? done({ jarId }) : refuse("NOT_FOUND");
}

/** What a jar may hold: grain of own recorded boxes, no more than each held, and not before it was opened. */
async function possibleContents(
  tx: Transaction,
  { growerId }: Actor,
  { boxes, sugarG, madeAt: told }: Omit<JarInput, "id">,
  jarId: string | null,
): Promise<Result<JarContents, JarRefusal>> {
  const madeAt = momentOf(told).at;
  if (isAhead(madeAt, new Date())) return refuse("MOMENT_IN_FUTURE");
  const boxIds = boxes.map(({ boxId }) => boxId);
  if ((await lockOwnBoxes(tx, growerId, boxIds)) < boxIds.length) return refuse("NOT_FOUND");
  const recorded = new Map(
    (await recordedBoxes(tx, growerId, { boxIds, most: MOST_JAR_BOXES })).map((row) => [row.boxId, row]),
  );
  for (const { boxId, grainG } of boxes) {
    const box = recorded.get(boxId);
    if (!box) return refuse("BOX_NOT_RECORDED");
    const left = leftG(box, jarId);
    if (left !== null && grainG > left) return refuse("MORE_THAN_BOX_HELD");
    if (box.openedAt && madeAt < box.openedAt) return refuse("JAR_BEFORE_OPENING");
  }
  return done({ boxes, sugarG, madeAt });
}

/**
 * Grams of a box that are in no jar but `jarId`: of its usable part, or, where that was not weighed, of its whole
 * content, in whole grams and no more than there are. Null where neither was weighed.
 */
function leftG({ measures, inJars }: JarableRow, jarId: string | null): number | null {
  const { usableMassG: usable, totalMassG: total } = measures;
  const weighed = [usable, total].find((measure) => typeof measure === "object" && measure !== null);
  if (typeof weighed !== "object" || weighed === null) return null;
  const elsewhere = inJars.reduce((sum, each) => sum + (each.jarId === jarId ? 0 : each.grainG), 0);
  return Math.max(0, Math.floor(weighed.value) - elsewhere);
}

/** Moisture of the grain as it went into the box, wet basis, 0–1; null where cups of it have no known weight. */
function moistureInBox(content: VariantContent): number | null {
  const figures = GRAIN_FIGURES[content.grain];
  const predicted = predictMoisture(figures, content);
  if (!predicted.ok) return null;
  const { prediction } = predicted;
  return cookedMoisture(prediction.rawMoisture, assumedUptake(figures, prediction).gPerG, 0);
}

/** A recorded box that may go into a jar. */
export interface JarChoice {
  readonly boxId: string;
  readonly code: string;
  readonly outingId: string;
  readonly setCode: string;
  /** The planned day of its set, `YYYY-MM-DD`. */
  readonly day: string;
  readonly openedAt: Date | null;
  /** Of its grain as cooked, wet basis, 0–1; null where that isn't known. */
  readonly moisture: number | null;
  /** Grams of it that are in no other jar; null where it was not weighed. */
  readonly leftG: number | null;
}

/** The actor's recorded boxes for a new jar, or for the jar `jarId`, whose own are always among them. */
export async function jarChoices(
  tx: Transaction,
  actor: Actor,
  jarId: string | null = null,
): Promise<readonly JarChoice[]> {
  const jar = jarId === null ? null : await findOwnJar(tx, actor.growerId, jarId);
  const own = jar ? await rowsOf(tx, actor, jar.boxes) : [];
  const newest = await recordedBoxes(tx, actor.growerId, { most: CHOICES });
  const others = newest.filter((row) => !own.some(({ boxId }) => boxId === row.boxId));
  return [...own, ...others].map((row) => choiceOf(row, jarId));
}

function choiceOf(row: JarableRow, jarId: string | null): JarChoice {
  const { boxId, code, outingId, setCode, day, openedAt, content } = row;
  return {
    boxId,
    code,
    outingId,
    setCode,
    day: day.toISOString().slice(0, 10),
    openedAt,
    moisture: moistureInBox(content),
    leftG: leftG(row, jarId),
  };
}

const rowsOf = (tx: Transaction, actor: Actor, boxes: readonly { readonly boxId: string }[]) =>
  recordedBoxes(tx, actor.growerId, { boxIds: boxes.map(({ boxId }) => boxId), most: MOST_JAR_BOXES });

export interface JarView {
  readonly id: string;
  /** Counts its corrections; a correction says which one it was made from. */
  readonly version: number;
  readonly sugarG: number;
  readonly madeAt: Date;
  readonly boxes: readonly (JarChoice & { readonly grainG: number })[];
  /** Null where a box's moisture isn't known, or there is nothing to dissolve. */
  readonly syrup: SyrupEstimate | null;
}

/** A jar of the actor's own with what its page shows; null when there is none such. */
export async function jarView(tx: Transaction, actor: Actor, id: string): Promise<JarView | null> {
  const jar = await findOwnJar(tx, actor.growerId, id);
  if (!jar) return null;
  const grainOf = new Map(jar.boxes.map(({ boxId, grainG }) => [boxId, grainG]));
  const rows = await rowsOf(tx, actor, jar.boxes);
  const boxes = rows.map((row) => ({ ...choiceOf(row, id), grainG: grainOf.get(row.boxId)! }));
  const grains = boxes.flatMap(({ grainG: massG, moisture }) =>
    moisture === null ? [] : { massG, moisture },
  );
  const isKnown = grains.length === jar.boxes.length;
  const { version, sugarG, madeAt } = jar;
  return { id, version, sugarG, madeAt, boxes, syrup: isKnown ? syrupOf(grains, sugarG) : null };
}

export interface JarListItem {
  readonly id: string;
  readonly madeAt: Date;
  readonly sugarG: number;
  readonly grainG: number;
  readonly boxCodes: readonly string[];
}

/** A page of the actor's jars, the newest first; `before` is the last id of the page before. */
export async function jarList(
  tx: Transaction,
  actor: Actor,
  before?: string,
): Promise<{ readonly items: readonly JarListItem[]; readonly next: string | null }> {
  const rows = await jarsOf(tx, actor.growerId, PAGE + 1, before);
  const items = rows.slice(0, PAGE).map(({ id, madeAt, sugarG, boxes }) => ({
    id,
    madeAt,
    sugarG,
    grainG: boxes.reduce((sum, { grainG }) => sum + grainG, 0),
    boxCodes: boxes.map(({ box }) => box.code),
  }));
  return { items, next: rows.length > PAGE ? items.at(-1)!.id : null };
}
