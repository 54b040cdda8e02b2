import type { SiteClimateRecord } from "@/shared/schemas/site-climate";
import type { KoppenClass } from "@/shared/vocabulary/climate";
import type { Transaction } from "./client";
import type { Prisma } from "./generated/client";

export interface SiteRow {
  readonly id: string;
  readonly koppenClass: KoppenClass;
  readonly name: string;
  readonly latitude: number;
  readonly longitude: number;
  readonly elevationM: number;
  readonly climate: SiteClimateRecord;
}

/** Keeps a site and its place; false when the id is taken. */
export async function insertSite(
  tx: Transaction,
  site: SiteRow & { growerId: string; householdId: string; accountId: string },
): Promise<boolean> {
  const { id, koppenClass, growerId, householdId, accountId } = site;
  const { count } = await tx.site.createMany({
    data: [{ id, growerId, householdId, koppenClass }],
    skipDuplicates: true,
  });
  if (count === 0) return false;
  await tx.sitePlace.create({
    data: {
      siteId: id,
      accountId,
      name: site.name,
      cellLatitude: site.latitude,
      cellLongitude: site.longitude,
      elevationM: site.elevationM,
      climate: site.climate as unknown as Prisma.InputJsonValue,
    },
  });
  return true;
}

/** The grower's own sites, newest first. */
export async function sitesOf(tx: Transaction, growerId: string): Promise<SiteRow[]> {
  const sites = await tx.site.findMany({
    where: { growerId, place: { isNot: null } },
    include: { place: true },
    orderBy: { id: "desc" },
  });
  return sites.flatMap((site) => siteRow(site) ?? []);
}

/** A site of this grower, or null when there is none such or it is another's. */
export async function findOwnSite(tx: Transaction, growerId: string, id: string): Promise<SiteRow | null> {
  const site = await tx.site.findFirst({ where: { id, growerId }, include: { place: true } });
  return site && siteRow(site);
}

function siteRow(site: Prisma.SiteGetPayload<{ include: { place: true } }>): SiteRow | null {
  if (!site.place) return null;
  return {
    id: site.id,
    koppenClass: site.koppenClass as KoppenClass,
    name: site.place.name,
    latitude: Number(site.place.cellLatitude),
    longitude: Number(site.place.cellLongitude),
    elevationM: site.place.elevationM,
    climate: site.place.climate as unknown as SiteClimateRecord,
  };
}
