import type { Transaction } from "./client";

export interface RegionRow {
  readonly id: string;
  readonly name: string;
  readonly south: number;
  readonly west: number;
  readonly north: number;
  readonly east: number;
}

export async function allRegions(tx: Transaction): Promise<RegionRow[]> {
  const regions = await tx.region.findMany({ orderBy: { name: "asc" } });
  return regions.map(({ id, name, south, west, north, east }) => ({
    id,
    name,
    south: Number(south),
    west: Number(west),
    north: Number(north),
    east: Number(east),
  }));
}

/** Keeps a region; false when its code is taken. */
export async function insertRegion(tx: Transaction, region: RegionRow & { code: string }): Promise<boolean> {
  const { count } = await tx.region.createMany({ data: [region], skipDuplicates: true });
  return count === 1;
}
