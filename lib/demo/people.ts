import type { DemoPeopleRows } from "@/lib/data/demo";
import { bandOf } from "@/lib/engine/climate/grouping";
import { type ClimateReference, siteClimate } from "@/lib/engine/climate/site-climate";
import { OUTING_CODE_ALPHABET } from "@/lib/engine/design/outing-code";
import type { RandomSource } from "@/lib/engine/random/source";
import { DEMO_NAMES, DEMO_PLACE_NAMES, DEMO_PLACES } from "@/prisma/seed/places";
import { DEMO_REGIONS } from "@/prisma/seed/regions";
import { DEMO_GROUPING } from "@/prisma/seed/trials";
import type { SiteClimateRecord } from "@/shared/schemas/site-climate";
import { between, idAt } from "./chance";

/** A home of the demo with its one place; the second adult of some homes grows too. */
export interface DemoHousehold {
  readonly id: string;
  readonly growerIds: readonly string[];
  readonly siteId: string;
  readonly regionId: string;
  readonly regionCode: string;
  readonly band: string;
  readonly koppenClass: string;
}

/** Whoever signs in, by the hash of a password made at the start. */
export interface DemoSignIn {
  readonly email: string;
  readonly name: string;
  readonly passwordHash: string;
}

export interface DemoPeople {
  readonly rows: DemoPeopleRows;
  readonly households: readonly DemoHousehold[];
  readonly leadAccountId: string;
  /** The demo's own grower, of the first household. */
  readonly growerAccountId: string;
  /** Reads pictures without knowing the recipe; has no boxes. */
  readonly maskedGraderId: string;
}

/** Homes with two adults: every seventh. */
const SECOND_ADULT_EVERY = 7;

/** Everyone in the demo. Of the growers only the first can sign in: nobody knows the others' password. */
export function makePeople(
  source: RandomSource,
  at: Date,
  reference: ClimateReference,
  signIns: { readonly grower: DemoSignIn; readonly lead: DemoSignIn; readonly admin: DemoSignIn },
  unknownPasswordHash: string,
): DemoPeople {
  const rows: { -readonly [Key in keyof DemoPeopleRows]: DemoPeopleRows[Key] } = {
    households: [],
    growers: [],
    accounts: [],
    sites: [],
    places: [],
  };
  const account = (
    householdId: string,
    signIn: DemoSignIn,
    rights: { isAdmin?: boolean; mayLead?: boolean } = {},
  ) => {
    const growerId = idAt(source, at);
    const accountId = idAt(source, at);
    rows.growers.push({ id: growerId, householdId, createdAt: at });
    rows.accounts.push({ id: accountId, growerId, createdAt: at, ...signIn, ...rights });
    return { growerId, accountId };
  };
  const household = () => {
    const id = idAt(source, at);
    rows.households.push({ id, joinCode: randomCode(source, 10), createdAt: at });
    return id;
  };
  const places = Object.entries(DEMO_PLACES).flatMap(([band, cells]) =>
    cells.map((cell) => ({ band, cell })),
  );
  let growerAccountId = "";
  const households = places.map(({ band, cell }, index): DemoHousehold => {
    const id = household();
    const stranger = (adult: number): DemoSignIn => ({
      email: `p${index + 1}-${adult}@growers.example`,
      name: DEMO_NAMES[(index + adult * 3) % DEMO_NAMES.length]!,
      passwordHash: unknownPasswordHash,
    });
    const first = account(id, index === 0 ? signIns.grower : stranger(1));
    if (index === 0) growerAccountId = first.accountId;
    const growerIds = [first.growerId];
    if (index % SECOND_ADULT_EVERY === 3) growerIds.push(account(id, stranger(2)).growerId);
    const place = placeIn(cell, band, reference);
    const siteId = idAt(source, at);
    rows.sites.push({
      id: siteId,
      growerId: first.growerId,
      householdId: id,
      koppenClass: place.koppenClass,
      createdAt: at,
    });
    rows.places.push({
      siteId,
      accountId: first.accountId,
      name: DEMO_PLACE_NAMES[index % DEMO_PLACE_NAMES.length]!,
      cellLatitude: cell[0],
      cellLongitude: cell[1],
      elevationM: cell[2],
      climate: { ...place.climate },
      createdAt: at,
    });
    return { id, growerIds, siteId, band, ...place };
  });
  const lead = account(household(), signIns.lead, { mayLead: true });
  account(household(), signIns.admin, { isAdmin: true });
  return { rows, households, leadAccountId: lead.accountId, growerAccountId, maskedGraderId: lead.growerId };
}

export function randomCode(source: RandomSource, length: number): string {
  return Array.from(
    { length },
    () => OUTING_CODE_ALPHABET[between(source, 0, OUTING_CODE_ALPHABET.length - 1)],
  ).join("");
}

/** Region and climate of a cell; throws when the engine puts it into another group than the seed file says. */
function placeIn(
  [latitude, longitude, elevationM]: readonly [number, number, number],
  band: string,
  reference: ClimateReference,
) {
  const region = DEMO_REGIONS.find(
    ({ south, west, north, east }) =>
      latitude >= south && latitude < north && longitude >= west && longitude < east,
  );
  const climate = siteClimate({ latitude, longitude, elevationM }, reference);
  const group = climate.ok ? bandOf(climate.koppenClass, DEMO_GROUPING) : null;
  if (!region || !climate.ok || climate.source !== "station" || !group?.ok || group.band !== band) {
    throw new Error(
      `The demo's place ${latitude}, ${longitude} is not in ${band}: mend prisma/seed/places.ts.`,
    );
  }
  const { name, country, distanceKm, heightDifferenceM } = climate.station;
  const record: SiteClimateRecord = {
    source: "station",
    station: { name, country, distanceKm, heightDifferenceM },
    nearBoundary: climate.nearBoundary.map(({ change, koppenClass }) => ({ change, koppenClass })),
    monthlyMeanC: climate.normals.monthlyMeanC,
    notes: [],
  };
  return {
    regionId: region.id,
    regionCode: region.code,
    koppenClass: climate.koppenClass as string,
    climate: record,
  };
}
