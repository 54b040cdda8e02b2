import type { Actor } from "@/lib/auth/actor";
import type { DemoPeopleRows } from "@/lib/data/demo";
import { bandOf } from "@/lib/engine/climate/grouping";
import { type ClimateReference, siteClimate } from "@/lib/engine/climate/site-climate";
import { OUTING_CODE_ALPHABET } from "@/lib/engine/design/outing-code";
import type { RandomSource } from "@/lib/engine/random/source";
import { DEMO_NAMES, DEMO_PLACE_NAMES, DEMO_PLACES } from "@/prisma/seed/places";
import { DEMO_REGIONS } from "@/prisma/seed/regions";
import { DEMO_GROUPING } from "@/prisma/seed/trials";
import type { SiteClimateRecord } from "@/shared/schemas/site-climate";
import type { SiteTraits } from "@/shared/schemas/site-traits";
import { CANOPIES, GROUND_MOISTURES, SUN_HOURS, WHITE_THREADS } from "@/shared/vocabulary/place";
import { between, idAt } from "./chance";

/** Who can sign in to the demo, by role. Names are invented. */
export const DEMO_ROLES = {
  /** The first household's, with boxes that wait. */
  grower: { name: "Brisa", email: "grower@demo.example" },
  /** Of a household with two adults, who has recorded everything … */
  "grower-done": { name: "Anxo", email: "grower-done@demo.example" },
  /** … and the other adult of that household. */
  "second-adult": { name: "Leire", email: "second-adult@demo.example" },
  lead: { name: "Maren", email: "lead@demo.example" },
  "co-lead": { name: "Sabela", email: "co-lead@demo.example" },
  admin: { name: "Iker", email: "admin@demo.example" },
} as const;
export type DemoRole = keyof typeof DEMO_ROLES;

/** The hash of a role's password; for null that of everyone else in the demo, which nobody knows. */
export type PasswordHashOf = (role: DemoRole | null) => string;

/** A home of the demo with its one place; the second adult of some homes grows too. */
export interface DemoHousehold {
  readonly id: string;
  /** One or two. */
  readonly adults: readonly Actor[];
  readonly siteId: string;
  readonly regionId: string;
  readonly regionCode: string;
  readonly band: string;
  readonly koppenClass: string;
  /** Its place among the households of its climate group, from 0. */
  readonly turn: number;
}

export interface DemoPeople {
  readonly rows: DemoPeopleRows;
  readonly households: readonly DemoHousehold[];
  readonly lead: Actor;
  readonly coLead: Actor;
  /** Reads pictures without knowing the recipe; has no boxes. */
  readonly maskedGraderId: string;
}

/** Homes with two adults: every seventh, from this one on. */
const SECOND_ADULT_EVERY = 7;
const FIRST_WITH_TWO = 3;

/** Which adult of which home has a role to sign in with. */
const ROLE_AT: Readonly<Record<string, DemoRole>> = {
  "0/1": "grower",
  [`${FIRST_WITH_TWO}/1`]: "grower-done",
  [`${FIRST_WITH_TWO}/2`]: "second-adult",
};

/** Everyone in the demo. Of the growers only three can sign in: nobody knows the others' password. */
export function makePeople(
  source: RandomSource,
  at: Date,
  reference: ClimateReference,
  passwordHashOf: PasswordHashOf,
): DemoPeople {
  const rows: DemoPeopleRows = { households: [], growers: [], accounts: [], sites: [], places: [] };
  const account = (
    householdId: string,
    who: { readonly name: string; readonly email: string },
    role: DemoRole | null,
  ): Actor => {
    const growerId = idAt(source, at);
    const accountId = idAt(source, at);
    const { name, email } = who;
    const rights = { isAdmin: role === "admin", mayLead: role === "lead" || role === "co-lead" };
    rows.growers.push({ id: growerId, householdId, createdAt: at });
    rows.accounts.push({
      ...{ id: accountId, growerId, name, email, createdAt: at, ...rights },
      passwordHash: passwordHashOf(role),
      // Strangers' addresses lead nowhere: they read letters in their things only.
      leadMailsOff: role === null,
    });
    return { accountId, growerId, householdId, name, ...rights };
  };
  const household = () => {
    const id = idAt(source, at);
    rows.households.push({ id, joinCode: randomCode(source, 10), createdAt: at });
    return id;
  };
  const places = Object.entries(DEMO_PLACES).flatMap(([band, cells]) =>
    cells.map((cell, turn) => ({ band, cell, turn })),
  );
  const households = places.map(({ band, cell, turn }, index): DemoHousehold => {
    const id = household();
    const adult = (number: 1 | 2) => {
      const role = ROLE_AT[`${index}/${number}`] ?? null;
      return account(id, role ? DEMO_ROLES[role] : strangerAt(index, number), role);
    };
    const first = adult(1);
    const adults = index % SECOND_ADULT_EVERY === FIRST_WITH_TWO ? [first, adult(2)] : [first];
    const place = placeIn(cell, band, reference);
    const siteId = idAt(source, at);
    const { growerId, accountId } = first;
    const { koppenClass } = place;
    rows.sites.push({
      ...{ id: siteId, growerId, householdId: id, koppenClass, createdAt: at },
      traits: traitsAt(index),
    });
    rows.places.push({
      siteId,
      accountId,
      name: DEMO_PLACE_NAMES[index % DEMO_PLACE_NAMES.length]!,
      cellLatitude: cell[0],
      cellLongitude: cell[1],
      elevationM: cell[2],
      climate: { ...place.climate },
      createdAt: at,
    });
    return { id, adults, siteId, band, turn, ...place };
  });
  const lead = account(household(), DEMO_ROLES.lead, "lead");
  account(household(), DEMO_ROLES.admin, "admin");
  const coLead = account(household(), DEMO_ROLES["co-lead"], "co-lead");
  return { rows, households, lead, coLead, maskedGraderId: lead.growerId };
}

function strangerAt(index: number, adult: 1 | 2) {
  return {
    email: `p${index + 1}-${adult}@growers.example`,
    name: DEMO_NAMES[(index + adult * 3) % DEMO_NAMES.length]!,
  };
}

/** What a home's place is like, all kinds in turn. */
function traitsAt(index: number): SiteTraits {
  const oneOf = <T>(choices: readonly T[], offset: number) => ({
    value: choices[(index + offset) % choices.length]!,
  });
  return {
    canopy: oneOf(CANOPIES, 0),
    litterDepthCm: index % 5 === 4 ? "not_measured" : { value: 2 + (index % 6) },
    whiteThreads: index % 4 === 3 ? null : oneOf(WHITE_THREADS, 1),
    groundMoisture: oneOf(GROUND_MOISTURES, 2),
    sun: oneOf(SUN_HOURS, 0),
  };
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
