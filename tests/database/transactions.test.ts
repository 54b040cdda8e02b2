import { afterAll, expect, it } from "vitest";
import { database, transaction } from "@/lib/data/client";
import { claimReceipt } from "@/lib/data/receipts";
import { leave } from "@/lib/services/accounts/leave";
import { recordGrade } from "@/lib/services/growing/grades";
import { joinTrial } from "@/lib/services/growing/join";
import { registerSite } from "@/lib/services/growing/sites";
import { inTransaction } from "@/lib/services/run";
import { newMember, PASSWORD } from "./accounts-fixture";
import { coastSite, enrolment, grade, newOpenTrial, ownGrounds, run, somebodyWaits } from "./growing-fixture";
import { drawnSet } from "./lead-fixture";

const grounds = ownGrounds();
afterAll(() => database().$disconnect());

it("does work again that waited in a circle: a record comes in while its grower's account goes", async () => {
  const { db } = grounds;
  const trial = await newOpenTrial(db);
  const { actor } = await newMember(db, "Grower");
  const site = coastSite();
  for (const step of [
    await run(db, (tx) => joinTrial(tx, actor, enrolment(trial))),
    await run(db, (tx) => registerSite(tx, actor, site)),
  ]) {
    expect(step).toMatchObject({ ok: true });
  }
  const { boxIds } = await drawnSet(db, trial, actor, site.id);
  const input = grade(boxIds[0]!, 40);
  const receipt = { id: input.id, route: "grades", contentSha256: "0".repeat(64) };

  let begun = 0;
  let left: ReturnType<typeof inTransaction> | undefined;
  const recorded = await transaction(async (tx) => {
    await claimReceipt(tx, { ...receipt, accountId: actor.accountId }); // holds the account
    left ??= inTransaction((other) => {
      begun++;
      return leave(other, actor, PASSWORD); // holds the trial, then wants the account
    });
    await expect.poll(() => somebodyWaits(tx), { timeout: 10_000 }).toBe(true);
    return recordGrade(tx, actor, input); // wants the trial
  });
  expect(recorded).toMatchObject({ ok: true });
  expect(await left).toEqual({ ok: true, value: null });
  expect(begun).toBe(2);
  expect(await db.grade.count({ where: { id: input.id } })).toBe(1);
  expect(await db.account.count({ where: { id: actor.accountId } })).toBe(0);
});
