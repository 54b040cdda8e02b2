import { expect } from "vitest";
import { AGREEMENT_VERSION } from "@/shared/schemas/enrolment";
import { DEMO_REGIONS } from "../../prisma/seed/regions";
import { DEMO_OPEN_TRIAL } from "../../prisma/seed/trials";
import { newId, post, type Visitor } from "./visitor";

const northShore = DEMO_REGIONS[0];
const openTrial = DEMO_OPEN_TRIAL;

/** What one grower owns once they have taken part, each by its id. */
export interface Belongings {
  readonly siteId: string;
  readonly outingId: string;
  readonly boxIds: readonly string[];
  readonly variantId: string;
}

/** Words that no page but their owner's may show. */
export const PRIVATE_SITE_NAME = "Behind the blue gate";
export const PRIVATE_NOTE = "smelled of cellar, like at grandmother's";

async function mustPost(visitor: Visitor, noun: string, body: { id: string }): Promise<void> {
  const answer = await post(visitor, noun, body);
  expect(answer.status(), `${noun}: ${await answer.text()}`).toBe(201);
}

/** A set of boxes of the demo's open trial, to be planned today. */
export function setOf(siteId: string, boxIds: readonly string[]) {
  return {
    id: newId(),
    trialId: openTrial.id,
    siteId,
    day: new Date().toISOString().slice(0, 10),
    boxKind: "softwood",
    innerLengthCm: 30,
    innerWidthCm: 20,
    innerHeightCm: null,
    grainDepthCm: 6,
    cover: "paper",
    coverClear: true,
    guard: "wire-cage",
    boxes: boxIds.map((id) => ({ id })),
    grainsAtHand: ["barley-pearl", "brown-rice-long"],
  };
}

/** Joins the demo's open trial, registers a place and a recipe, and plans a set of boxes, undrawn. */
export async function planSet(visitor: Visitor, siteName = PRIVATE_SITE_NAME): Promise<Belongings> {
  await mustPost(visitor, "enrolments", {
    id: newId(),
    joinCode: openTrial.joinCode,
    regionId: northShore.id,
    agreementVersion: AGREEMENT_VERSION,
  } as { id: string });
  const siteId = newId();
  await mustPost(visitor, "sites", {
    id: siteId,
    name: siteName,
    latitude: 43.4,
    longitude: -3.8,
    elevationM: 60,
  } as { id: string });
  const variantId = newId();
  await mustPost(visitor, "variants", {
    id: variantId,
    name: "My millet",
    content: {
      grain: "millet",
      form: "whole",
      rinsed: true,
      soakHours: 0,
      waterToGrain: 1,
      ratioBasis: "volume",
      cookMethod: "absorption",
      cookMinutes: 20,
      cooling: "spread-thin",
    },
  } as { id: string });
  const boxIds = [newId(), newId(), newId()];
  const set = setOf(siteId, boxIds);
  await mustPost(visitor, "outings", set);
  return { siteId, outingId: set.id, boxIds, variantId };
}

/** A reading of one box with every measure answered. */
export function gradeOf(boxId: string, coverPercent: number, basedOn: number | null = null) {
  return {
    id: newId(),
    boxId,
    measures: {
      coverPercent: { value: coverPercent },
      coverClass: null,
      offColourPercent: {
        "blue-green": { value: 2 },
        black: { value: 0 },
        "yellow-orange": null,
        "pink-red": null,
      },
      depth: "not_measured",
      wetness: "not_measured",
      warmth: "not_measured",
      smell: "not_measured",
      usableMassG: null,
      totalMassG: null,
    },
    openedAt: null,
    recordedAt: new Date().toISOString(),
    basedOn,
    note: PRIVATE_NOTE,
  };
}
