import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { enrolmentsOf, findEnrolment } from "@/lib/data/enrolments";
import { findTrialRules, type TrialRules } from "@/lib/data/outings";
import { type SiteRow, sitesOf } from "@/lib/data/sites";
import { bandOf } from "@/lib/engine/climate/grouping";
import type { BoxLimits } from "@/shared/schemas/plan";
import type { GrainId } from "@/shared/vocabulary/grain";
import { boxLimitsOf } from "./box-limits";
import { type PermissionStanding, permissionStanding } from "./sites";

type SiteFault = "SITE_OUTSIDE_REGION" | "CLASS_NOT_IN_TRIAL";

export interface RegionExtent {
  readonly south: unknown;
  readonly west: unknown;
  readonly north: unknown;
  readonly east: unknown;
}

/** Whether a place lies in a region, its edges included. Extents are decimals to 0.1°. */
function isWithin({ latitude, longitude }: SiteRow, { south, west, north, east }: RegionExtent): boolean {
  return (
    latitude >= Number(south) &&
    latitude <= Number(north) &&
    longitude >= Number(west) &&
    longitude <= Number(east)
  );
}

/** Why no set of a trial can be at a place, for a household of this region; or null. */
export function siteFault(trial: TrialRules, site: SiteRow, region: RegionExtent): SiteFault | null {
  if (!isWithin(site, region)) return "SITE_OUTSIDE_REGION";
  return bandOf(site.koppenClass, trial.grouping).ok ? null : "CLASS_NOT_IN_TRIAL";
}

export interface PlanningView {
  readonly trial: TrialRules;
  readonly regionName: string;
  /** Of the trial's recipes, each once. */
  readonly grains: readonly GrainId[];
  readonly limits: BoxLimits | null;
  /** The actor's places, each with whether an outing of this trial may be there. */
  readonly sites: readonly {
    readonly id: string;
    readonly name: string;
    readonly fault: SiteFault | null;
    readonly permission: SiteRow["permission"];
    /** Whether boxes may stand there this season, as far as the place says. */
    readonly standing: PermissionStanding;
  }[];
}

/** What planning a set of boxes needs to know; null unless the actor takes part in the trial. */
export async function planningView(
  tx: Transaction,
  actor: Actor,
  trialId: string,
): Promise<PlanningView | null> {
  const trial = await findTrialRules(tx, trialId);
  const enrolment = trial && (await findEnrolment(tx, trial.id, actor));
  if (!enrolment) return null;
  const sites = await sitesOf(tx, actor.growerId);
  const today = new Date().toISOString().slice(0, 10);
  return {
    trial,
    regionName: enrolment.region.name,
    grains: [...new Set(trial.arms.map(({ content }) => content.grain))],
    limits: boxLimitsOf(trial.plan),
    sites: sites.map((site) => ({
      id: site.id,
      name: site.name,
      fault: siteFault(trial, site, enrolment.region),
      permission: site.permission,
      standing: permissionStanding(site.permission, today),
    })),
  };
}

/** The open trials the actor's household takes part in. */
export async function joinedTrials(tx: Transaction, actor: Actor) {
  const enrolments = await enrolmentsOf(tx, actor.householdId);
  return enrolments.map(({ trial, region }) => ({
    id: trial.id,
    slug: trial.slug,
    title: trial.title,
    joinCode: trial.joinCode,
    isOpen: trial.status === "open",
    regionName: region.name,
  }));
}
