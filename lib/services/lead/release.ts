import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { amendmentsOf } from "@/lib/data/amendments";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { lockTrial } from "@/lib/data/lead";
import { lossesByKind } from "@/lib/data/lead-progress";
import { looksTaken, type PooledTrial, pooledTrial } from "@/lib/data/pool-plan";
import { findReleaseHead, insertRelease, releaseBoxes } from "@/lib/data/releases";
import { findTrialById, readBoxFlow, type TrialRow } from "@/lib/data/trials";
import { canonicalHash, canonicalJson, sha256Hex } from "@/lib/engine/random/hash";
import { canonicalTable } from "@/lib/engine/statistics/canonical-columns";
import { POOL_ENGINE } from "@/lib/engine/statistics/pool-columns";
import { jsonReport } from "@/lib/engine/statistics/pool-report";
import { done, type Result, refuse } from "@/lib/errors/result";
import { LastUsed } from "@/lib/last-used";
import type { PoolWork } from "@/lib/services/pool-both-ways";
import { analysisTable } from "@/lib/services/pool-data";
import { levelAt, poolOptions } from "@/lib/services/pool-plan";
import type { Pool } from "@/lib/services/pooling";
import { inTransaction } from "@/lib/services/run";
import type { PlanAmendment } from "@/shared/schemas/plan-amendment";
import type { PoolResult } from "@/shared/schemas/pool";
import type { ReleaseManifest, ReleasePart } from "@/shared/schemas/release";
import { authoriseLead } from "./authorise";
import { releaseRows } from "./release-rows";

/** What a release says about itself, but for its parts and its day. */
export type ReleaseFacts = Omit<ReleaseManifest, "parts" | "releasedAt" | "flow"> & {
  readonly flow: Required<ReleaseManifest["flow"]>;
};

/** All that words on a release's methods can rest on. */
export interface MethodsBasis {
  readonly facts: ReleaseFacts;
  readonly releasedAt: Date;
  readonly trial: TrialRow;
  readonly amendments: readonly PlanAmendment[];
  readonly analysis: PoolResult;
}

/** What is needed from above: how boxes become a result, and how methods become words. */
export interface ReleaseMeans {
  readonly pool: Pool;
  readonly writeMethods: (basis: MethodsBasis) => string;
}

/** A release as it would be now. */
export interface ReleasePreview {
  readonly trial: TrialRow;
  readonly facts: ReleaseFacts;
  readonly csv: string;
  /** Of the rows; releasing asks for it, so that what is released is what was looked at. */
  readonly rowsSha256: string;
  readonly analysis: PoolResult;
  readonly methods: string;
}

export type ReleaseRefusal = "NOT_FOUND" | "TRIAL_NOT_CLOSED" | "ALREADY_RELEASED" | "TOO_FEW_HOUSEHOLDS";

/** What the actor's closed trial would release. */
export async function previewRelease(
  actor: Actor,
  trialId: string,
  { pool, writeMethods }: ReleaseMeans,
  releasedAt = new Date(),
): Promise<Result<ReleasePreview, ReleaseRefusal>> {
  const drafted = await inTransaction((tx) => draftRelease(tx, actor, trialId));
  if (!drafted.ok) return drafted;
  const result = await pooledOnce(drafted.value, pool);
  return done(composeRelease(drafted.value, result, writeMethods, releasedAt));
}

/** The results of the last previews: looking again, or releasing what was looked at, pools nothing anew. */
const pooledBefore = new LastUsed<PoolResult>(4);

/** A closed trial's plan stands and its rows name all else that is pooled, so that the same rows have one result. */
async function pooledOnce({ trial, rowsSha256, work }: ReleaseDraft, pool: Pool): Promise<PoolResult> {
  const name = `${trial.id} ${rowsSha256} ${work.options.level}`;
  const before = pooledBefore.get(name);
  if (before) return before;
  const { result } = await pool(work);
  pooledBefore.set(name, result);
  return result;
}

/** The release that a draft and the result of its work make. */
export function composeRelease(
  { work: _, sha256, ...rest }: ReleaseDraft,
  result: PoolResult,
  writeMethods: ReleaseMeans["writeMethods"],
  releasedAt: Date,
): ReleasePreview {
  // Named by what the command reads of the rows, which passes over clean growth: it finds the same name.
  const analysis = { ...result, data: { ...result.data, sha256 } };
  return { ...rest, analysis, methods: writeMethods({ ...rest, releasedAt, analysis }) };
}

/** Releases the actor's closed trial, once and for good, if its rows are still the ones that were looked at. */
export async function releaseTrial(
  actor: Actor,
  input: { readonly trialId: string; readonly rowsSha256: string },
  means: ReleaseMeans,
  releasedAt = new Date(),
): Promise<Result<{ readonly hash: string; readonly slug: string }, ReleaseRefusal | "CHANGED_MEANWHILE">> {
  const preview = await previewRelease(actor, input.trialId, means, releasedAt);
  if (!preview.ok) return preview;
  if (preview.value.rowsSha256 !== input.rowsSha256) return refuse("CHANGED_MEANWHILE");
  return inTransaction((tx) => keepRelease(tx, actor, preview.value, releasedAt));
}

/** Keeps a release of the actor's trial, once and for good. */
export async function keepRelease(
  tx: Transaction,
  actor: Actor,
  { trial, facts, csv, rowsSha256, analysis, methods }: ReleasePreview,
  releasedAt: Date,
): Promise<Result<{ readonly hash: string; readonly slug: string }, "NOT_FOUND" | "ALREADY_RELEASED">> {
  const authorised = await authoriseLead(tx, actor, trial.id);
  if (!authorised.ok) return authorised;
  const figures = figuresText(analysis);
  const parts: Record<ReleasePart, string> = {
    "rows.csv": csv,
    "figures.json": figures,
    "results.json": canonicalJson(analysis),
    "methods.txt": methods,
    "plan.json": canonicalJson(trial.plan),
  };
  const manifest: ReleaseManifest = {
    ...facts,
    releasedAt: releasedAt.toISOString(),
    parts: (Object.entries(parts) as [ReleasePart, string][]).map(([name, text]) => ({
      name,
      sha256: sha256Hex(text),
      bytes: Buffer.byteLength(text),
    })),
  };
  const hash = canonicalHash(manifest);
  const { growerId } = actor;
  const texts = { manifest, methods, figures };
  const release = { ...{ id: v7(), trialId: trial.id, releasedAt, growerId }, rows: csv, rowsSha256 };
  if (!(await insertRelease(tx, { ...release, analysis, texts, hash }))) return refuse("ALREADY_RELEASED");
  await insertAuditEntry(tx, { growerId, action: "trial.released", subjectId: trial.id, detail: { hash } });
  return done({ hash, slug: trial.slug });
}

/**
 * What the command prints for the rows: it is not asked to fit again under other assumptions, and doesn't learn what
 * only that tells.
 */
export function figuresText(result: PoolResult): string {
  const analysis = result.analysis!;
  const warnings = analysis.model.warnings.filter((warning) => warning !== "FIXED_OUTING_GAP");
  const model = { ...analysis.model, warnings };
  return jsonReport({ ...result, analysis: { ...analysis, model, sensitivity: [], growers: [] } });
}

interface ReleaseDraft {
  readonly trial: TrialRow;
  readonly facts: ReleaseFacts;
  readonly amendments: readonly PlanAmendment[];
  readonly csv: string;
  readonly rowsSha256: string;
  readonly work: PoolWork;
  /** Of the canonical rows as the command reads them, which passes over clean growth. */
  readonly sha256: string;
}

/** What of the actor's closed trial a release rests on. */
export async function draftRelease(
  tx: Transaction,
  actor: Actor,
  trialIdAsked: string,
): Promise<Result<ReleaseDraft, ReleaseRefusal>> {
  const authorised = await authoriseLead(tx, actor, trialIdAsked);
  if (!authorised.ok) return authorised;
  const trialId = authorised.value;
  await lockTrial(tx, trialId);
  if (await findReleaseHead(tx, trialId)) return refuse("ALREADY_RELEASED");
  const trial = await findTrialById(tx, trialId);
  if (!trial?.closedAt || !trial.openedSecret) return refuse("TRIAL_NOT_CLOSED");
  const { closedAt } = trial;
  const data = await analysisTable(tx, trialId, closedAt);
  const rows = releaseRows(data, await releaseBoxes(tx, trialId, closedAt), {
    secretHex: trial.openedSecret,
    grouping: trial.grouping,
  });
  if (!rows.ok) return rows;
  const { csv, joined, ...pooled } = rows.value;
  const { sha256 } = canonicalTable({ ...pooled.table, cleanTake: null });
  const planned = await pooledTrial(tx, trialId);
  const level = levelAt(1, await looksTaken(tx, trialId));
  // The command knows no larger minimum and shows no single grower unasked; its seed is named after the rows.
  const { minimum: _, ...planOptions } = poolOptions(planned, level, true);
  const options = { ...planOptions, seed: sha256, byGrower: false };
  const amendments = await amendmentsOf(tx, trialId);
  const { households: growers, ...flow } = await readBoxFlow(tx, trialId);
  const facts: ReleaseFacts = {
    form: "grainlot-release/1",
    trial: trialFacts(trial, closedAt),
    engine: POOL_ENGINE,
    command: commandFor(planned, level),
    planHash: trial.planHash,
    amendments: amendments.map(({ hash }) => hash),
    seal: trial.seal,
    ledger: { draws: trial.drawCount, lastHash: trial.lastHash },
    joinedGroups: joined && { code: joined.code, of: [...joined.of] },
    rests: { growers, outings: pooled.table.columns.labels.outing.length, boxes: pooled.table.columns.n },
    flow,
    losses: [...(await lossesByKind(tx, trialId, closedAt))],
  };
  const work = { ...pooled, options, interim: null };
  return done({ trial, facts, amendments, csv, rowsSha256: sha256Hex(csv), work, sha256 });
}

function trialFacts(
  { id, slug, title, question, invented, openedAt }: TrialRow,
  closedAt: Date,
): ReleaseFacts["trial"] {
  return {
    ...{ id, slug, title, question, invented },
    openedAt: openedAt.toISOString(),
    closedAt: closedAt.toISOString(),
  };
}

/** The command that makes the figures from the rows. */
function commandFor({ plan }: PooledTrial, level: number): string {
  const planned = "form" in plan ? plan : null;
  const reference =
    planned?.primaryComparison.kind === "against-reference" ? planned.primaryComparison.arm : null;
  return [
    "grainlot pool rows.csv --json",
    ...(level === 0.95 ? [] : [`--level ${level}`]),
    ...(planned ? [`--margin ${planned.margin}`] : []),
    ...(reference === null ? [] : [`--reference ${reference}`]),
  ].join(" ");
}
