import type { StoredPlan } from "@/shared/schemas/plan";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { ClimateGrouping } from "@/shared/vocabulary/climate";
import { endsInForce, plannedEnds } from "./amendments";
import type { Transaction } from "./client";
import { HAS_BEEN } from "./drawn-boxes";

export type PublicTrialStatus = "open" | "closed";

export interface TrialListRow {
  readonly id: string;
  readonly slug: string;
  readonly title: string;
  readonly question: string;
  readonly status: PublicTrialStatus;
  readonly invented: boolean;
  /** The last day in force, a calendar date `YYYY-MM-DD`. */
  readonly endsOn: string;
  readonly recipes: number;
  readonly seatsLeft: number;
  readonly regions: readonly string[];
  readonly released: boolean;
}

/** Trials that have left their draft, newest first; `before` is the id of the last one of the page before. */
export async function listTrials(
  tx: Transaction,
  { status, before, limit }: { status: PublicTrialStatus; before?: string; limit: number },
): Promise<TrialListRow[]> {
  return tx.$queryRaw<TrialListRow[]>`
    SELECT trial.id, slug, title, question, status, invented, to_char(coalesce(amended_ends_on, ends_on), 'YYYY-MM-DD') AS "endsOn",
      (SELECT count(*)::int FROM arm WHERE arm.trial_id = trial.id) AS recipes,
      (SELECT coalesce(sum(capacity - seats_taken), 0)::int FROM trial_region r WHERE r.trial_id = trial.id)
        AS "seatsLeft",
      ARRAY(SELECT region.name FROM trial_region r JOIN region ON region.id = r.region_id
        WHERE r.trial_id = trial.id ORDER BY region.name) AS regions,
      EXISTS (SELECT FROM trial_release release WHERE release.trial_id = trial.id) AS released
    FROM trial
    WHERE status = ${status} AND (${before ?? null}::uuid IS NULL OR trial.id < ${before ?? null}::uuid)
    ORDER BY trial.id DESC LIMIT ${limit}`;
}

export interface TrialArmRow {
  readonly code: string;
  readonly content: VariantContent;
}

export interface TrialRegionRow {
  readonly code: string;
  readonly name: string;
  readonly capacity: number;
  readonly seatsTaken: number;
}

/** An opened trial with everything of it that anyone may see. Hashes are 64 hex digits. */
export interface TrialRow {
  readonly id: string;
  readonly slug: string;
  readonly title: string;
  readonly question: string;
  readonly status: PublicTrialStatus;
  readonly invented: boolean;
  readonly joinCode: string;
  readonly grouping: ClimateGrouping;
  readonly plan: StoredPlan;
  readonly planHash: string;
  readonly seal: string;
  /** Null until the trial has closed. */
  readonly openedSecret: string | null;
  readonly drawCount: number;
  readonly lastHash: string;
  readonly openedAt: Date;
  readonly closedAt: Date | null;
  /** In the order draws use. */
  readonly arms: readonly TrialArmRow[];
  readonly regions: readonly TrialRegionRow[];
  /** The season before this one, and those that went on from it, once they have opened. */
  readonly follows: TrialLink | null;
  readonly followedBy: readonly TrialLink[];
  /** Null until the trial's lead has released it. */
  readonly releaseHash: string | null;
  readonly releasedAt: Date | null;
  /** Climate groups that stand as one in the release. */
  readonly joinedGroups: { readonly code: string; readonly of: readonly string[] } | null;
}

/** Another trial's address and name. */
export interface TrialLink {
  readonly slug: string;
  readonly title: string;
}

/** In one query. A draft is nobody's to see here: null, as for an address without a trial. */
export function findTrial(tx: Transaction, slug: string): Promise<TrialRow | null> {
  return oneTrial(tx, { slug, id: null });
}

/** The same by id. */
export function findTrialById(tx: Transaction, id: string): Promise<TrialRow | null> {
  return oneTrial(tx, { slug: null, id });
}

async function oneTrial(
  tx: Transaction,
  { slug, id }: { readonly slug: string | null; readonly id: string | null },
): Promise<TrialRow | null> {
  const [trial] = await tx.$queryRaw<TrialRow[]>`
    SELECT trial.id, trial.slug, trial.title, trial.question, trial.status, trial.invented,
      trial.join_code AS "joinCode", trial.grouping, trial.plan, trial.plan_hash AS "planHash", trial.seal,
      trial.opened_secret AS "openedSecret", trial.draw_count AS "drawCount", trial.last_hash AS "lastHash",
      trial.opened_at AS "openedAt", trial.closed_at AS "closedAt",
      (SELECT coalesce(jsonb_agg(jsonb_build_object('code', arm.code, 'content', variant.content)
          ORDER BY arm.position), '[]')
        FROM arm JOIN protocol_variant variant ON variant.id = arm.variant_id
        WHERE arm.trial_id = trial.id) AS arms,
      (SELECT coalesce(jsonb_agg(jsonb_build_object('code', region.code, 'name', region.name,
          'capacity', r.capacity, 'seatsTaken', r.seats_taken) ORDER BY region.name), '[]')
        FROM trial_region r JOIN region ON region.id = r.region_id
        WHERE r.trial_id = trial.id) AS regions,
      (SELECT jsonb_build_object('slug', earlier.slug, 'title', earlier.title) FROM trial earlier
        WHERE earlier.id = trial.follows_id AND earlier.status <> 'draft') AS follows,
      (SELECT coalesce(jsonb_agg(jsonb_build_object('slug', later.slug, 'title', later.title) ORDER BY later.id), '[]')
        FROM trial later WHERE later.follows_id = trial.id AND later.status <> 'draft') AS "followedBy",
      release.hash AS "releaseHash", release.released_at AS "releasedAt",
      release.methods -> 'manifest' -> 'joinedGroups' AS "joinedGroups"
    FROM trial LEFT JOIN trial_release release ON release.trial_id = trial.id
    WHERE (trial.slug = ${slug} OR trial.id = ${id}::uuid) AND trial.status <> 'draft'`;
  return trial ?? null;
}

/** An opened trial's plan with its dates and ends; null for a draft and for no trial. */
export async function findPlanCourse(tx: Transaction, trialId: string) {
  const trial = await tx.trial.findUnique({ where: { id: trialId } });
  if (!trial?.plan || !trial.planHash || !trial.openedAt) return null;
  return {
    plan: trial.plan as unknown as StoredPlan,
    planHash: trial.planHash,
    openedAt: trial.openedAt,
    closedAt: trial.closedAt,
    plannedEnds: plannedEnds(trial),
    ends: endsInForce(trial),
  };
}

/** How far the drawn boxes of a trial have come, all recipes together. */
export interface BoxFlow {
  readonly households: number;
  readonly drawn: number;
  readonly cooked: number;
  readonly setOut: number;
  readonly opened: number;
  /** Boxes whose grower has recorded their growth. */
  readonly recorded: number;
  /** By the rule of `boxesOfAnalysis`. */
  readonly lost: number;
}

/** Counted as the analysis counts; nothing that arrived after the trial had closed. */
export async function readBoxFlow(tx: Transaction, trialId: string): Promise<BoxFlow> {
  const [flow] = await tx.$queryRaw<BoxFlow[]>`
    SELECT count(DISTINCT drawn.enrolment_id)::int AS households, count(*)::int AS drawn,
      count(*) FILTER (WHERE ${HAS_BEEN.cooked})::int AS cooked,
      count(*) FILTER (WHERE ${HAS_BEEN.setOut})::int AS "setOut",
      count(*) FILTER (WHERE ${HAS_BEEN.opened})::int AS opened,
      count(*) FILTER (WHERE recorded)::int AS recorded, count(*) FILTER (WHERE lost)::int AS lost
    FROM drawn_boxes(${trialId}::uuid, (SELECT closed_at FROM trial WHERE id = ${trialId}::uuid)) drawn`;
  return flow!;
}
