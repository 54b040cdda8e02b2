import { expect, it } from "vitest";
import { draftOf, refusal, seatsPath } from "@/app/lead/trials/_components/draft-values";
import { trialDraftSchema } from "@/shared/schemas/trial-draft";

const [NORTH, SOUTH, EAST] = [1, 2, 3].map((n) => `0190a0b0-0000-7000-8000-00000000000${n}`) as [
  string,
  string,
  string,
];

it("a fault of a region's seats is found at the field they were typed in, past those left empty", () => {
  const values = { [`seats.${NORTH}`]: "", [`seats.${SOUTH}`]: "20", [`seats.${EAST}`]: "twelve" };
  const { error } = trialDraftSchema.safeParse(draftOf(values));
  const paths = error!.issues.map(({ path }) => path.join("."));
  expect(paths).toContain(seatsPath(values, EAST));
  expect(paths).not.toContain(seatsPath(values, SOUTH));
  expect(seatsPath(values, NORTH)).toBeNull();
});

const region = {
  "region.name": "Invented north",
  "region.south": "42,5",
  "region.north": "44",
  "region.west": "−9",
  "region.east": "1",
  "region.capacity": "5",
};

it("takes degrees with a decimal comma and a true minus", () => {
  const { newRegion } = draftOf(region);
  expect(trialDraftSchema.shape.newRegion.parse(newRegion)).toMatchObject({ south: 42.5, west: -9 });
});

it("never takes an empty edge of a new region for 0°", () => {
  const { newRegion } = draftOf({ ...region, "region.west": "", "region.east": " " });
  const { error } = trialDraftSchema.shape.newRegion.safeParse(newRegion);
  expect(error!.issues.map(({ path, message }) => [path.join("."), message])).toEqual([
    ["west", "region.extent"],
    ["east", "region.extent"],
  ]);
});

it("tells a last day behind at its field, and keeps what was typed", () => {
  const values = { endsOn: "2020-01-01" };
  expect(refusal("ENDS_IN_PAST", values)).toEqual({
    error: "INVALID",
    fields: { endsOn: "endsOn.past" },
    values,
  });
  expect(refusal("TRY_AGAIN", values)).toEqual({ error: "TRY_AGAIN", values });
});
