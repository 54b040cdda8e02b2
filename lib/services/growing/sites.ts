import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { enrolmentsOf } from "@/lib/data/enrolments";
import {
  findOwnSite,
  insertSite,
  lockOwnSite,
  moveSite,
  type SiteRow,
  type SiteWhereabouts,
  setSiteDetails,
  siteNotes,
  sitesOf,
} from "@/lib/data/sites";
import { bandOf } from "@/lib/engine/climate/grouping";
import {
  classifyOwn,
  type GridClimate,
  type OwnClimate,
  type StationClimate,
  siteClimate,
} from "@/lib/engine/climate/site-climate";
import { done, type Result, refuse } from "@/lib/errors/result";
import { loadKoppenGrid } from "@/lib/reference/koppen-grid";
import { loadStations } from "@/lib/reference/normals";
import type { SiteChange, SiteInput, Whereabouts } from "@/shared/schemas/site";
import type { SiteClimateRecord } from "@/shared/schemas/site-climate";
import type { ClimateGroup, ClimateGrouping, KoppenClass } from "@/shared/vocabulary/climate";
import { PERMISSION_LASTS_DAYS } from "@/shared/vocabulary/place";

export interface RegisteredSite {
  readonly siteId: string;
  readonly koppenClass: KoppenClass;
  readonly climate: SiteClimateRecord;
}

type Found = StationClimate | GridClimate | OwnClimate;

/** Climate class of a spot, from the nearest station unless own numbers came along. */
async function climateAt(spot: Whereabouts): Promise<Result<SiteWhereabouts, "NO_CLIMATE_HERE">> {
  const found = spot.ownNormals
    ? classifyOwn(spot.ownNormals)
    : siteClimate(spot, { stations: await loadStations(), grid: await loadKoppenGrid() });
  if (!found.ok) return refuse("NO_CLIMATE_HERE");
  const { latitude, longitude, elevationM } = spot;
  return done({ latitude, longitude, elevationM, koppenClass: found.koppenClass, climate: recordOf(found) });
}

/** Keeps a grower's place at 0.1° and finds its climate class. */
export async function registerSite(
  tx: Transaction,
  actor: Actor,
  input: SiteInput,
): Promise<Result<RegisteredSite, "NO_CLIMATE_HERE" | "NOT_FOUND">> {
  const found = await climateAt(input);
  if (!found.ok) return found;
  const { id, name, traits, permission, note } = input;
  const { accountId, growerId, householdId } = actor;
  const owner = { accountId, growerId, householdId, at: new Date() };
  const details = { id, name, traits, permission, note };
  if (!(await insertSite(tx, { ...found.value, ...details, ...owner }))) return refuse("NOT_FOUND");
  const { koppenClass, climate } = found.value;
  return done({ siteId: id, koppenClass, climate });
}

/**
 * Changes a place of the actor's, as long as it is still what the change was made from; where it is, only while no set
 * of boxes was planned there.
 */
export async function changeSite(
  tx: Transaction,
  actor: Actor,
  change: SiteChange,
): Promise<
  Result<
    { readonly siteId: string },
    "NOT_FOUND" | "CHANGED_MEANWHILE" | "PLACE_HAS_SETS" | "NO_CLIMATE_HERE"
  >
> {
  const { siteId, basedOn, whereabouts, ...details } = change;
  const site = await lockOwnSite(tx, actor.growerId, siteId);
  if (!site) return refuse("NOT_FOUND");
  if (site.version !== basedOn) return refuse("CHANGED_MEANWHILE");
  if (whereabouts) {
    if (site.hasSets) return refuse("PLACE_HAS_SETS");
    const found = await climateAt(whereabouts);
    if (!found.ok) return found;
    await moveSite(tx, siteId, found.value);
  }
  await setSiteDetails(tx, { id: siteId, accountId: actor.accountId }, details, new Date());
  return done({ siteId });
}

function recordOf(found: Found): SiteClimateRecord {
  const station = found.source === "own" ? null : found.station;
  return {
    source: found.source,
    station: station && {
      name: station.name,
      country: station.country,
      distanceKm: Math.round(station.distanceKm),
      heightDifferenceM: Math.round(station.heightDifferenceM),
    },
    nearBoundary: found.nearBoundary,
    monthlyMeanC: found.normals && [...found.normals.monthlyMeanC],
    notes: [...found.notes],
  };
}

export type PermissionStanding = "said" | "not-yet" | "never-asked" | "out-of-date";

/** Whether boxes may stand at a place this season, as far as its owner said. Days as `YYYY-MM-DD`. */
export function permissionStanding(permission: SiteRow["permission"], today: string): PermissionStanding {
  if (!permission) return "never-asked";
  if (permission.kind === "not-yet") return "not-yet";
  const ageMs = Date.parse(today) - Date.parse(permission.on);
  return ageMs > PERMISSION_LASTS_DAYS * 24 * 3_600_000 ? "out-of-date" : "said";
}

export interface SiteView extends SiteRow {
  readonly note: string | null;
  readonly standing: PermissionStanding;
  /** The climate group of this place in each trial the household takes part in; null where it has none. */
  readonly groups: readonly { readonly trialTitle: string; readonly group: ClimateGroup | null }[];
}

/** The actor's places with the climate group each stands in. */
export async function siteViews(tx: Transaction, actor: Actor): Promise<SiteView[]> {
  return viewsOf(tx, actor, await sitesOf(tx, actor.growerId));
}

/** One of the actor's places; null when there is none such or it is another's. */
export async function siteView(tx: Transaction, actor: Actor, id: string): Promise<SiteView | null> {
  const site = await findOwnSite(tx, actor.growerId, id);
  const [view] = await viewsOf(tx, actor, site ? [site] : []);
  return view ?? null;
}

async function viewsOf(tx: Transaction, actor: Actor, sites: readonly SiteRow[]): Promise<SiteView[]> {
  const enrolments = await enrolmentsOf(tx, actor.householdId);
  const ids = sites.map(({ id }) => id);
  const notes = await siteNotes(tx, actor.accountId, ids);
  const today = new Date().toISOString().slice(0, 10);
  return sites.map((site) => ({
    ...site,
    note: notes.get(site.id) ?? null,
    standing: permissionStanding(site.permission, today),
    groups: enrolments.map(({ trial }) => {
      const grouping = trial.grouping as unknown as ClimateGrouping;
      const band = bandOf(site.koppenClass, grouping);
      const group = band.ok ? grouping.find(({ code }) => code === band.band) : undefined;
      return { trialTitle: trial.title, group: group ?? null };
    }),
  }));
}
