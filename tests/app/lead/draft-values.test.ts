import { expect, it } from "vitest";
import { draftOf, seatsPath } from "@/app/lead/trials/_components/draft-values";
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
