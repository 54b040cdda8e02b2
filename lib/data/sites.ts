import { v7 } from "uuid";
import type { SiteClimateRecord } from "@/shared/schemas/site-climate";
import { type SiteTraits, siteTraitsSchema } from "@/shared/schemas/site-traits";
import type { KoppenClass } from "@/shared/vocabulary/climate";
import type { Permission } from "@/shared/vocabulary/place";
import type { Transaction } from "./client";
import type { Prisma } from "./generated/client";

/** Where a place is and the climate found for it. */
export interface SiteWhereabouts {
  readonly koppenClass: KoppenClass;
  readonly latitude: number;
  readonly longitude: number;
  readonly elevationM: number;
  readonly climate: SiteClimateRecord;
}

/** What else its owner said of a place; what is undefined is left as it stands. */
export interface SiteDetails {
  readonly name: string;
  readonly traits?: SiteTraits;
  readonly permission?: Permission;
  /** Null takes the words away. */
  readonly note?: string | null;
}

export interface SiteRow extends SiteWhereabouts {
  readonly id: string;
  /** Counts its changes; a change says which one it was made from. */
  readonly version: number;
  readonly name: string;
  readonly traits: SiteTraits;
  /** What was said last of the right to set out boxes here, and on which day (`YYYY-MM-DD`). */
  readonly permission: { readonly kind: Permission; readonly on: string } | null;
  /** Whether a set of boxes was ever planned here: then it stays where it is. */
  readonly hasSets: boolean;
}

const WITH_PLACE = { place: true, outings: { select: { id: true }, take: 1 } } as const;

/** Keeps a site and its place; false when the id is taken. `at` is the moment its details were given. */
export async function insertSite(
  tx: Transaction,
  site: SiteWhereabouts &
    SiteDetails & { id: string; growerId: string; householdId: string; accountId: string; at: Date },
): Promise<boolean> {
  const { id, koppenClass, growerId, householdId, accountId, name, at } = site;
  const { traits, permission, note } = site;
  const { count } = await tx.site.createMany({
    data: [{ id, growerId, householdId, koppenClass, traits }],
    skipDuplicates: true,
  });
  if (count === 0) return false;
  const place = { siteId: id, accountId, name, ...placeColumns(site), ...permissionColumns(permission, at) };
  await tx.sitePlace.create({ data: place });
  await keepSiteNote(tx, site, note);
  return true;
}

/** Changes what the owner says of a place; a permission counts from the day of `at`. */
export async function setSiteDetails(
  tx: Transaction,
  site: { id: string; accountId: string },
  { name, traits, permission, note }: SiteDetails,
  at: Date,
): Promise<void> {
  await tx.site.update({ where: { id: site.id }, data: { traits } });
  await tx.sitePlace.update({
    where: { siteId: site.id },
    data: { name, ...permissionColumns(permission, at), version: { increment: 1 } },
  });
  await keepSiteNote(tx, site, note);
}

/** Keeps by what right boxes stand at a place that is held, from the day of `at`. */
export async function keepPermission(
  tx: Transaction,
  siteId: string,
  permission: Permission,
  at: Date,
): Promise<void> {
  const data = { ...permissionColumns(permission, at), version: { increment: 1 } };
  await tx.sitePlace.update({ where: { siteId }, data });
}

const permissionColumns = (permission: Permission | undefined, at: Date) =>
  permission ? { permission, permissionOn: at } : {};

async function keepSiteNote(
  tx: Transaction,
  { id, accountId }: { id: string; accountId: string },
  note: SiteDetails["note"],
): Promise<void> {
  if (note === undefined) return;
  const about = { accountId, subjectId: id };
  await tx.freeText.deleteMany({ where: about });
  if (note) await tx.freeText.create({ data: { id: v7(), ...about, text: note } });
}

/** Moves a place on which no set of boxes stands. */
export async function moveSite(tx: Transaction, id: string, to: SiteWhereabouts): Promise<void> {
  await tx.site.update({ where: { id }, data: { koppenClass: to.koppenClass } });
  await tx.sitePlace.update({ where: { siteId: id }, data: placeColumns(to) });
}

function placeColumns({ latitude, longitude, elevationM, climate }: SiteWhereabouts) {
  return {
    cellLatitude: latitude,
    cellLongitude: longitude,
    elevationM,
    climate: climate as unknown as Prisma.InputJsonValue,
  };
}

/** The grower's own sites, newest first. */
export async function sitesOf(tx: Transaction, growerId: string): Promise<SiteRow[]> {
  const sites = await tx.site.findMany({
    where: { growerId, place: { isNot: null } },
    include: WITH_PLACE,
    orderBy: { id: "desc" },
  });
  return sites.flatMap((site) => siteRow(site) ?? []);
}

/** A site of this grower, or null when there is none such or it is another's. */
export async function findOwnSite(tx: Transaction, growerId: string, id: string): Promise<SiteRow | null> {
  const site = await tx.site.findFirst({ where: { id, growerId }, include: WITH_PLACE });
  return site && siteRow(site);
}

/** Holds a site of this grower until the transaction ends, so that no set is planned on it meanwhile. */
export async function lockOwnSite(tx: Transaction, growerId: string, id: string): Promise<SiteRow | null> {
  await tx.$queryRaw`
    SELECT id FROM site WHERE id = ${id}::uuid AND grower_id = ${growerId}::uuid FOR UPDATE`;
  return findOwnSite(tx, growerId, id);
}

/** The same, but held only against a change of it: sets may be planned there at the same time. */
export async function holdOwnSite(tx: Transaction, growerId: string, id: string): Promise<SiteRow | null> {
  await tx.$queryRaw`
    SELECT id FROM site WHERE id = ${id}::uuid AND grower_id = ${growerId}::uuid FOR KEY SHARE`;
  return findOwnSite(tx, growerId, id);
}

/** An owner's own words about their places, by place. */
export async function siteNotes(
  tx: Transaction,
  accountId: string,
  siteIds: readonly string[],
): Promise<ReadonlyMap<string, string>> {
  const notes = await tx.freeText.findMany({ where: { accountId, subjectId: { in: [...siteIds] } } });
  return new Map(notes.map(({ subjectId, text }) => [subjectId, text]));
}

function siteRow(site: Prisma.SiteGetPayload<{ include: typeof WITH_PLACE }>): SiteRow | null {
  const { place } = site;
  if (!place) return null;
  return {
    id: site.id,
    version: place.version,
    koppenClass: site.koppenClass as KoppenClass,
    name: place.name,
    latitude: Number(place.cellLatitude),
    longitude: Number(place.cellLongitude),
    elevationM: place.elevationM,
    climate: place.climate as unknown as SiteClimateRecord,
    traits: siteTraitsSchema.parse(site.traits),
    permission: place.permissionOn && {
      kind: place.permission as Permission,
      on: place.permissionOn.toISOString().slice(0, 10),
    },
    hasSets: site.outings.length > 0,
  };
}
