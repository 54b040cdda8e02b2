import { v7 } from "uuid";
import { describe, expect, it, vi } from "vitest";
import { authOptions } from "@/lib/auth/options";
import * as passwords from "@/lib/auth/passwords";
import { actorOfClaims } from "@/lib/auth/session";
import { checkSignIn } from "@/lib/auth/sign-in";
import { allowSignIn } from "@/lib/services/accounts/admin";
import { changePassword, signOutEverywhere } from "@/lib/services/accounts/settings";
import { signUp } from "@/lib/services/accounts/sign-up";
import { joinTrial, joinView } from "@/lib/services/growing/join";
import { newAddress, newMember, PASSWORD } from "./accounts-fixture";
import { enrolment, newOpenTrial, ownGrounds, run } from "./growing-fixture";

const grounds = ownGrounds();

const newcomer = (changes: object = {}) => ({
  name: "Ainhoa Example",
  email: `${v7()}@example.org`,
  password: PASSWORD,
  householdCode: "",
  ...changes,
});

describe("whose session holds", () => {
  it("an account's own, with its rights as they are now, not as they were at sign-in", async () => {
    const { db } = grounds;
    const { claims, actor } = await newMember(db, "Bea");
    expect(await actorOfClaims(db, claims)).toEqual(actor);
    await db.account.update({ where: { id: claims.accountId }, data: { mayLead: true } });
    expect(await actorOfClaims(db, claims)).toMatchObject({ mayLead: true, isAdmin: false });
  });

  it("signing out everywhere ends every session at once", async () => {
    const { db } = grounds;
    const { claims, actor } = await newMember(db, "Carles");
    await run(db, (tx) => signOutEverywhere(tx, actor));
    expect(await actorOfClaims(db, claims)).toBeNull();
    expect(await actorOfClaims(db, { ...claims, sessionVersion: 2 })).not.toBeNull();
  });

  it("a disabled account has none, and gets none of the old ones back when it is enabled again", async () => {
    const { db } = grounds;
    const { claims, email } = await newMember(db, "Dolores");
    const admin = await newMember(db, "Admin", { isAdmin: true });
    const set = (allowed: boolean) =>
      run(db, (tx) => allowSignIn(tx, admin.actor, { accountId: claims.accountId, allowed }));
    await set(false);
    expect(await actorOfClaims(db, claims)).toBeNull();
    expect(await actorOfClaims(db, { ...claims, sessionVersion: 2 })).toBeNull();
    const attempt = { email, password: PASSWORD, from: newAddress() };
    expect(await checkSignIn(db, attempt)).toEqual({ ok: false, reason: "ACCOUNT_DISABLED" });
    await set(true);
    expect(await actorOfClaims(db, claims)).toBeNull();
    expect(await checkSignIn(db, attempt)).toMatchObject({ ok: true, value: { sessionVersion: 2 } });
  });

  it("a changed password ends the others and needs the old one", async () => {
    const { db } = grounds;
    const { claims, actor } = await newMember(db, "Eneko");
    const change = (current: string, password: string) =>
      run(db, (tx) => changePassword(tx, actor, { current, password }));
    expect(await change("not the old one", "kettle marten hazel")).toEqual({
      ok: false,
      reason: "WRONG_PASSWORD",
    });
    expect(await change(PASSWORD, "1234567890123456")).toEqual({ ok: false, reason: "PASSWORD_TOO_COMMON" });
    const changed = await change(PASSWORD, "kettle marten hazel");
    expect(await actorOfClaims(db, claims)).toBeNull();
    expect(changed.ok && (await actorOfClaims(db, changed.value))).toMatchObject({ name: "Eneko" });
  });

  it("on somebody else's phone it ends by itself", async () => {
    const { db } = grounds;
    const { claims, actor } = await newMember(db, "Fina");
    const nowS = Math.floor(Date.now() / 1000);
    expect(await actorOfClaims(db, { ...claims, endsAt: nowS + 60 })).toEqual(actor);
    expect(await actorOfClaims(db, { ...claims, endsAt: nowS - 1 })).toBeNull();
  });

  it.each([null, {}, { accountId: "x", sessionVersion: 1 }, { sessionVersion: 1 }])(
    "claims like %j are nobody's",
    async (claims) => {
      expect(await actorOfClaims(grounds.db, claims)).toBeNull();
    },
  );

  it("the cookie's token holds two claims and nobody's name or address", async () => {
    const jwt = authOptions().callbacks!.jwt!;
    const user = { id: v7(), accountId: v7(), sessionVersion: 3, name: "Bea", email: "bea@example.org" };
    const token = await jwt({ token: { name: "Bea", email: "bea@example.org" }, user, account: null });
    expect(token).toEqual({ accountId: user.accountId, sessionVersion: 3 });
  });
});

describe("signing up and in", () => {
  it("makes a household of one's own, and by its code a second adult joins it", async () => {
    const { db } = grounds;
    const first = await run(db, (tx) => signUp(tx, newcomer(), newAddress()));
    const one = first.ok ? await actorOfClaims(db, first.value) : null;
    const { joinCode } = await db.household.findUniqueOrThrow({ where: { id: one!.householdId } });
    const typed = ` ${joinCode.slice(0, 5).toLowerCase()}-${joinCode.slice(5)} `;
    const second = await run(db, (tx) => signUp(tx, newcomer({ householdCode: typed }), newAddress()));
    const two = second.ok ? await actorOfClaims(db, second.value) : null;
    expect(two).toMatchObject({ householdId: one!.householdId, isAdmin: false, mayLead: false });
    expect(two!.growerId).not.toBe(one!.growerId);
  });

  it("a refused one leaves nothing behind", async () => {
    const { db } = grounds;
    const { email } = await newMember(db, "Fermin");
    const counts = async () => [
      await db.household.count(),
      await db.grower.count(),
      await db.account.count(),
    ];
    const before = await counts();
    const refused = async (changes: object) => {
      const result = await run(db, (tx) => signUp(tx, newcomer(changes), newAddress()));
      return result.ok ? "done" : result.reason;
    };
    expect(await refused({ email })).toBe("EMAIL_TAKEN");
    expect(await refused({ householdCode: "NOSUCHCODE" })).toBe("NO_SUCH_HOUSEHOLD");
    expect(await refused({ password: "short" })).toBe("PASSWORD_TOO_SHORT");
    expect(await refused({ password: "passwordpassword" })).toBe("PASSWORD_TOO_COMMON");
    expect(await counts()).toEqual(before);
  });

  it("an address without an account answers as a wrong password does", async () => {
    const { db } = grounds;
    const { email } = await newMember(db, "Gala");
    const wrong = await checkSignIn(db, { email, password: "a wrong guess entirely", from: newAddress() });
    const nobody = await checkSignIn(db, {
      email: `${v7()}@example.org`,
      password: PASSWORD,
      from: newAddress(),
    });
    expect(nobody).toEqual(wrong);
    expect(wrong).toEqual({ ok: false, reason: "WRONG_SIGN_IN" });
  });

  it("too many tries are stopped before any hashing, even the right password", async () => {
    const { db } = grounds;
    const { email } = await newMember(db, "Hugo");
    const from = newAddress();
    for (let i = 0; i < 10; i++) await checkSignIn(db, { email, password: "a wrong guess entirely", from });
    const hashing = vi.spyOn(passwords, "passwordMatches");
    const eleventh = await checkSignIn(db, { email: email.toUpperCase(), password: PASSWORD, from });
    expect(eleventh).toEqual({ ok: false, reason: "TOO_MANY_REQUESTS" });
    expect(hashing).not.toHaveBeenCalled();
    const elsewhere = await checkSignIn(db, { email, password: PASSWORD, from: newAddress() });
    expect(elsewhere.ok).toBe(true);
    expect(hashing).toHaveBeenCalledOnce();
    hashing.mockRestore();
  });

  it("guessing household codes is stopped", async () => {
    const { db } = grounds;
    const from = newAddress();
    const guess = () => run(db, (tx) => signUp(tx, newcomer({ householdCode: "GUESSGUESS" }), from));
    const reasons = [];
    for (let i = 0; i < 21; i++) {
      const result = await guess();
      reasons.push(result.ok ? "done" : result.reason);
    }
    expect(reasons[0]).toBe("NO_SUCH_HOUSEHOLD");
    expect(reasons.at(-1)).toBe("TOO_MANY_REQUESTS");
  });

  it("guessing a trial's code is stopped, by address and by account; right codes cost nothing", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    const { actor } = await newMember(db, "Irati");
    const from = newAddress();
    const view = async (code: string) => {
      const result = await joinView(db, null, code, from);
      return result.ok ? "seen" : result.reason;
    };
    for (let i = 0; i < 25; i++) expect(await view(trial.joinCode)).toBe("seen");
    for (let i = 0; i < 20; i++) expect(await view(`guess-${i}`)).toBe("NOT_FOUND");
    expect(await view(trial.joinCode)).toBe("TOO_MANY_REQUESTS");
    const join = (joinCode: string) =>
      run(db, (tx) => joinTrial(tx, actor, { ...enrolment(trial), joinCode }));
    for (let i = 0; i < 20; i++) expect(await join(`guess-${i}`)).toMatchObject({ reason: "NOT_FOUND" });
    expect(await join(trial.joinCode)).toEqual({ ok: false, reason: "TOO_MANY_REQUESTS" });
  });

  it("the limits keep no address", async () => {
    const from = newAddress();
    await checkSignIn(grounds.db, { email: "irati@example.org", password: "whatever it was", from });
    const keys = (await grounds.db.rateLimit.findMany()).map(({ key }) => key).join(" ");
    expect(keys).not.toContain("example.org");
    expect(keys).not.toContain("2001:db8");
  });
});
