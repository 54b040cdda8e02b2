import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { enrolmentsOf } from "@/lib/data/enrolments";
import { insertSite, type SiteRow, sitesOf } from "@/lib/data/sites";
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
import type { SiteInput } from "@/shared/schemas/site";
import type { SiteClimateRecord } from "@/shared/schemas/site-climate";
import type { ClimateGroup, ClimateGrouping, KoppenClass } from "@/shared/vocabulary/climate";

export interface RegisteredSite {
  readonly siteId: string;
  readonly koppenClass: KoppenClass;
  readonly climate: SiteClimateRecord;
}

/** Keeps a grower's place at 0.1° and finds its climate class, from the nearest station unless own numbers came along. */
export async function registerSite(
  tx: Transaction,
  actor: Actor,
  input: SiteInput,
): Promise<Result<RegisteredSite, "NO_CLIMATE_HERE" | "NOT_FOUND">> {
  const found = input.ownNormals
    ? classifyOwn(input.ownNormals)
    : siteClimate(input, { stations: await loadStations(), grid: await loadKoppenGrid() });
  if (!found.ok) return refuse("NO_CLIMATE_HERE");
  const climate = recordOf(found);
  const { id, name, latitude, longitude, elevationM } = input;
  const { accountId, growerId, householdId } = actor;
  const place = { id, name, latitude, longitude, elevationM, koppenClass: found.koppenClass, climate };
  if (!(await insertSite(tx, { ...place, accountId, growerId, householdId }))) return refuse("NOT_FOUND");
  return done({ siteId: id, koppenClass: found.koppenClass, climate });
}

function recordOf(found: StationClimate | GridClimate | OwnClimate): SiteClimateRecord {
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

export interface SiteView extends SiteRow {
  /** The climate group of this place in each trial the household takes part in; null where it has none. */
  readonly groups: readonly { readonly trialTitle: string; readonly group: ClimateGroup | null }[];
}

/** The actor's places with the climate group each stands in. */
export async function siteViews(tx: Transaction, actor: Actor): Promise<SiteView[]> {
  const sites = await sitesOf(tx, actor.growerId);
  const enrolments = await enrolmentsOf(tx, actor.householdId);
  return sites.map((site) => ({
    ...site,
    groups: enrolments.map(({ trial }) => {
      const grouping = trial.grouping as unknown as ClimateGrouping;
      const band = bandOf(site.koppenClass, grouping);
      const group = band.ok ? grouping.find(({ code }) => code === band.band) : undefined;
      return { trialTitle: trial.title, group: group ?? null };
    }),
  }));
}
