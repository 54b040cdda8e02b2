import { afterEach, describe, expect, it } from "vitest";
import { actorOfClaims } from "@/lib/auth/session";
import { checkSignIn } from "@/lib/auth/sign-in";
import { mailResetLink, mayAskForReset, resetLinkHolds, resetPassword } from "@/lib/services/accounts/reset";
import { type Member, newAddress, newMember, PASSWORD } from "./accounts-fixture";
import { ownGrounds, run } from "./growing-fixture";

const grounds = ownGrounds();
afterEach(() => grounds.db.mail.deleteMany());

const NEW_PASSWORD = "kettle marten hazel oak";
const minutesLater = (minutes: number) => new Date(Date.now() + minutes * 60_000);

/** The secret of the link in the newest mail to somebody. */
async function mailedToken(member: Member): Promise<string> {
  const mail = await grounds.db.mail.findFirstOrThrow({
    where: { toAddress: member.email, kind: "reset" },
    orderBy: { id: "desc" },
  });
  const link = mail.body.match(/http\S+/)?.[0] ?? "";
  expect(new URL(link).pathname).toBe("/reset-password");
  return new URL(link).searchParams.get("token") ?? "";
}

async function ask(member: Member): Promise<string> {
  await run(grounds.db, (tx) => mailResetLink(tx, member.email, new Date()));
  return mailedToken(member);
}

function reset(token: string, password = NEW_PASSWORD, now = new Date()) {
  return run(grounds.db, (tx) => resetPassword(tx, { token, password, from: newAddress() }, now));
}

describe("a mailed link", () => {
  it("sets a new password, ends every session and says so by mail", async () => {
    const { db } = grounds;
    const member = await newMember(db, "Ainhoa");
    const result = await reset(await ask(member));
    expect(await actorOfClaims(db, member.claims)).toBeNull();
    expect(result.ok && (await actorOfClaims(db, result.value))).toMatchObject({ name: "Ainhoa" });
    const signIn = (password: string) =>
      checkSignIn(db, { email: member.email, password, from: newAddress() });
    expect((await signIn(NEW_PASSWORD)).ok).toBe(true);
    expect((await signIn(PASSWORD)).ok).toBe(false);
    expect(await db.mail.count({ where: { toAddress: member.email, kind: "password-changed" } })).toBe(1);
  });

  it("works once, and using one uses up the others", async () => {
    const member = await newMember(grounds.db, "Bea");
    const [first, second] = [await ask(member), await ask(member)];
    expect((await reset(second)).ok).toBe(true);
    expect(await reset(second)).toEqual({ ok: false, reason: "LINK_NO_LONGER_HOLDS" });
    expect(await reset(first)).toEqual({ ok: false, reason: "LINK_NO_LONGER_HOLDS" });
    expect(await resetLinkHolds(grounds.db, first, new Date())).toBe(false);
  });

  it("works once even when it is sent twice at the same moment", async () => {
    const token = await ask(await newMember(grounds.db, "Carles"));
    const results = await Promise.all([reset(token), reset(token, "another password of mine")]);
    expect(results.filter(({ ok }) => ok)).toHaveLength(1);
  });

  it("works for an hour", async () => {
    const token = await ask(await newMember(grounds.db, "Dolores"));
    expect(await resetLinkHolds(grounds.db, token, minutesLater(59))).toBe(true);
    expect(await resetLinkHolds(grounds.db, token, minutesLater(61))).toBe(false);
    expect(await reset(token, NEW_PASSWORD, minutesLater(61))).toEqual({
      ok: false,
      reason: "LINK_NO_LONGER_HOLDS",
    });
  });

  it("isn't used up by a password that can't be taken", async () => {
    const token = await ask(await newMember(grounds.db, "Eneko"));
    expect(await reset(token, "passwordpassword")).toEqual({ ok: false, reason: "PASSWORD_TOO_COMMON" });
    expect((await reset(token)).ok).toBe(true);
  });

  it("is kept as a hash only", async () => {
    const token = await ask(await newMember(grounds.db, "Fermin"));
    expect(token.length).toBeGreaterThanOrEqual(43);
    expect(JSON.stringify(await grounds.db.accountToken.findMany())).not.toContain(token);
  });

  it("is sent to nobody without an account or with a disabled one", async () => {
    const { db } = grounds;
    const member = await newMember(db, "Gala");
    await db.account.update({ where: { id: member.claims.accountId }, data: { disabledAt: new Date() } });
    for (const email of [member.email, "nobody@example.org"]) {
      expect((await run(db, (tx) => mailResetLink(tx, email, new Date()))).ok).toBe(true);
    }
    expect(await db.mail.count()).toBe(0);
  });

  it("can be asked for five times an hour, with or without an account", async () => {
    const email = (await newMember(grounds.db, "Hugo")).email;
    for (const address of [email, "nobody.at.all@example.org"]) {
      const answers = [];
      for (let i = 0; i < 6; i++) answers.push(await mayAskForReset(address, newAddress()));
      expect(answers).toEqual([true, true, true, true, true, false]);
    }
  });
});
