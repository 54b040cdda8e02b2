import type { APIResponse, Page } from "playwright-core";
import sharp from "sharp";
import { expect } from "vitest";
import { AGREEMENT_VERSION } from "@/shared/schemas/enrolment";
import { DEMO_REGIONS } from "../../prisma/seed/regions";
import { DEMO_OPEN_TRIAL } from "../../prisma/seed/trials";
import { newId, origin, post, type Visitor } from "./visitor";

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

/** Sends what a phone would send, and gives what is answered; a refusal fails the test. */
export async function saves(visitor: Visitor, noun: string, body: object) {
  const answer = await post(visitor, noun, body);
  expect(answer.status(), `${noun}: ${await answer.text()}`).toBe(201);
  return answer.json();
}

/** Takes a seat in the North shore of the trial with this code. */
export async function joins(visitor: Visitor, joinCode: string): Promise<void> {
  const agreed = { joinCode, regionId: northShore.id, agreementVersion: AGREEMENT_VERSION };
  await saves(visitor, "enrolments", { id: newId(), ...agreed });
}

/** Registers a place on the North shore and gives its id. */
export async function placeOf(visitor: Visitor, name: string): Promise<string> {
  const place = {
    id: newId(),
    name,
    latitude: 43.4,
    longitude: -3.8,
    elevationM: 60,
    permission: "own-land",
  };
  await saves(visitor, "sites", place);
  return place.id;
}

/** Writes down a recipe of pearl barley through its form; `water` is grams to a gram of grain. */
export async function writeRecipe(page: Page, name: string, water: string): Promise<void> {
  await page.goto("/variants/new");
  await page.getByLabel("What you call it").fill(name);
  await page.getByLabel("Grain", { exact: true }).selectOption("barley-pearl");
  await page.getByText("whole kernels", { exact: true }).click();
  await page.getByLabel("Soaked for").fill("0");
  await page.getByLabel("Water to one part of grain").fill(water);
  await page.getByText("by weight", { exact: true }).click();
  await page.getByLabel("Cooked", { exact: true }).selectOption("absorption");
  await page.getByLabel("Minutes").fill("30");
  await page.getByLabel("Cooled", { exact: true }).selectOption("spread-thin");
  await page.getByRole("button", { name: "Write it down" }).click();
  await page.getByText("Moisture to expect").first().waitFor();
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
  await joins(visitor, openTrial.joinCode);
  const siteId = await placeOf(visitor, siteName);
  const variantId = newId();
  const recipe = {
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
  };
  await saves(visitor, "variants", recipe);
  const boxIds = [newId(), newId(), newId()];
  const set = setOf(siteId, boxIds);
  await saves(visitor, "outings", set);
  return { siteId, outingId: set.id, boxIds, variantId };
}

/** Sends one white pixel as a picture of a box, or of a set of boxes. */
export async function sendPicture(
  visitor: Visitor,
  about: { id: string; purpose: "opened" | "set-out"; of: string },
): Promise<APIResponse> {
  return visitor.context.request.post(`/api/v1/photos?${new URLSearchParams(about)}`, {
    headers: { origin, "content-type": "image/png" },
    data: await whitePicture(),
  });
}

export const whitePicture = (): Promise<Buffer> =>
  sharp({ create: { width: 1, height: 1, channels: 3, background: "white" } })
    .png()
    .toBuffer();

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
