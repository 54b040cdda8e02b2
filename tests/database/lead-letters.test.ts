import { createTransport } from "nodemailer";
import { v7 } from "uuid";
import { beforeAll, describe, expect, it } from "vitest";
import { POST } from "@/app/unsubscribe/[token]/route";
import type { Actor } from "@/lib/auth/actor";
import { sendWaitingMails } from "@/lib/mail/send";
import { accountOfToken, unsubscribeToken } from "@/lib/mail/unsubscribe";
import { stopLettersByToken, switchLettersByMail } from "@/lib/services/accounts/letters-by-mail";
import { joinTrial } from "@/lib/services/growing/join";
import { letterLog, reachOf, sendLetter } from "@/lib/services/lead/letters";
import { LETTERS_A_DAY, type Letter, letterSchema } from "@/shared/schemas/letter";
import { enrolment, joinedGrower, newGrower, ownGrounds, run } from "./growing-fixture";
import { ledTrial, newLead } from "./lead-fixture";

const grounds = ownGrounds();

beforeAll(async () => {
  process.env.GRAINLOT_MODE = "production";
  process.env.SMTP_URL = "smtp://127.0.0.1:1";
});

const letter = (change: Partial<Letter> = {}): Letter =>
  letterSchema.parse({
    id: v7(),
    audience: "everyone",
    subject: "Frost on Thursday",
    body: "Fetch before the frost.\nWarm gloves help.",
    ...change,
  });
const send = (who: Actor, trialId: string, what: Letter, now = new Date()) =>
  run(grounds.db, (tx) => sendLetter(tx, who, { trialId, letter: what }, now));
const mailsOf = (actor: Actor) =>
  grounds.db.mail.findMany({ where: { accountId: actor.accountId, kind: "lead-message" } });

describe("a letter", () => {
  it("reaches everyone who takes part, both adults of a household too, and nobody else", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledTrial(db);
    const first = await joinedGrower(db, trial);
    const second = await joinedGrower(db, trial, first.grower.householdId);
    const sameHome = await newGrower(db, "Doesn't take part", first.grower.householdId);
    const other = await joinedGrower(db, (await ledTrial(db)).trial);
    const what = letter();
    const reach = await run(db, (tx) =>
      reachOf(tx, lead, { trialId: trial.id, audience: "everyone" }, new Date()),
    );
    expect(reach).toEqual({ ok: true, value: { households: 1, people: 2, byMail: 2 } });
    expect(await mailsOf(first.grower)).toEqual([]);
    expect(await send(lead, trial.id, what)).toEqual({ ok: true, value: { people: 2 } });
    for (const { grower } of [first, second]) {
      expect(await mailsOf(grower)).toMatchObject([
        { trialId: trial.id, subject: what.subject, body: what.body, failedStage: null },
      ]);
    }
    for (const nobody of [sameHome, other.grower]) expect(await mailsOf(nobody)).toEqual([]);
    expect(await send(lead, trial.id, what)).toEqual({ ok: false, reason: "ALREADY_SENT" });
    expect(await mailsOf(first.grower)).toHaveLength(1);
    const log = await run(db, (tx) => letterLog(tx, lead, { trialId: trial.id, page: 1 }));
    expect(log).toMatchObject({ value: { letters: [{ recipients: 2, audience: "everyone" }], more: false } });
  });

  it("goes to a group, or to one household by its pseudonym", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledTrial(db);
    const placed = await joinedGrower(db, trial);
    const placeless = await newGrower(db, "No place");
    await run(db, (tx) => joinTrial(tx, placeless, enrolment(trial)));
    expect(await send(lead, trial.id, letter({ audience: "no-place" }))).toMatchObject({ ok: true });
    expect([await mailsOf(placed.grower), await mailsOf(placeless)].map((mails) => mails.length)).toEqual([
      0, 1,
    ]);
    const { pseudonym } = await db.enrolment.findFirstOrThrow({
      where: { trialId: trial.id, householdId: placed.grower.householdId },
    });
    expect(await send(lead, trial.id, letter({ audience: `home-${pseudonym}` }))).toMatchObject({ ok: true });
    expect([await mailsOf(placed.grower), await mailsOf(placeless)].map((mails) => mails.length)).toEqual([
      1, 1,
    ]);
    for (const audience of ["overdue", "home-NOBODY"] as const) {
      expect(await send(lead, trial.id, letter({ audience }))).toEqual({ ok: false, reason: "NOBODY_THERE" });
    }
  });

  it("stands under My things but isn't mailed to whoever wants none, even those that waited already", async () => {
    const { db } = grounds;
    await db.mail.deleteMany();
    const { trial, lead } = await ledTrial(db);
    const [wanting, stopping, stopped] = [
      (await joinedGrower(db, trial)).grower,
      (await joinedGrower(db, trial)).grower,
      (await joinedGrower(db, trial)).grower,
    ];
    await run(db, (tx) => switchLettersByMail(tx, stopped, false));
    await send(lead, trial.id, letter());
    await run(db, (tx) => stopLettersByToken(tx, unsubscribeToken(stopping.accountId)));
    const sent: string[] = [];
    const server = createTransport({ streamTransport: true, buffer: true });
    const watched = {
      sendMail: async (mail: object) => {
        const { message } = await server.sendMail(mail);
        sent.push(String(message));
      },
    };
    expect(await sendWaitingMails(watched as never)).toEqual({ sent: 1, failed: 0 });
    const own = await db.account.findUniqueOrThrow({ where: { id: wanting.accountId } });
    // RFC 8058, section 3: both header fields, and an https (here the test's own) URI that needs no sign-in.
    expect(sent[0]).toContain(`To: ${own.email}`);
    const unfolded = sent[0]!.replaceAll(/\r?\n[ \t]+/g, " ");
    expect(unfolded).toMatch(/^List-Unsubscribe-Post: List-Unsubscribe=One-Click\r?$/m);
    const token = unfolded.match(
      /^List-Unsubscribe:\s+<http:\/\/127.0.0.1:3000\/unsubscribe\/(\S+)>\r?$/m,
    )?.[1];
    expect(accountOfToken(token!)).toBe(wanting.accountId);
    for (const grower of [wanting, stopping, stopped]) {
      expect(await mailsOf(grower)).toMatchObject([{ body: letter().body }]);
    }
    expect(await sendWaitingMails(watched as never)).toEqual({ sent: 0, failed: 0 });
  });

  it("is refused after so many in a day, however many ask at once", async () => {
    const { db } = grounds;
    const { trial, lead } = await ledTrial(db);
    const { grower } = await joinedGrower(db, trial);
    const answers = await Promise.all(
      Array.from({ length: LETTERS_A_DAY + 3 }, () => send(lead, trial.id, letter())),
    );
    expect(answers.filter(({ ok }) => ok)).toHaveLength(LETTERS_A_DAY);
    expect(await mailsOf(grower)).toHaveLength(LETTERS_A_DAY);
    const tomorrow = new Date(Date.now() + 25 * 3_600_000);
    expect(await send(lead, trial.id, letter(), tomorrow)).toMatchObject({ ok: true });
  });

  it("is nobody's to send but the trial's lead's", async () => {
    const { db } = grounds;
    const { trial } = await ledTrial(db);
    const { grower } = await joinedGrower(db, trial);
    const other = { ...(await newLead(db)), isAdmin: true };
    for (const who of [grower, other]) {
      expect(await send(who, trial.id, letter())).toEqual({ ok: false, reason: "NOT_FOUND" });
      const log = await run(db, (tx) => letterLog(tx, who, { trialId: trial.id, page: 1 }));
      expect(log).toEqual({ ok: false, reason: "NOT_FOUND" });
    }
    expect(await mailsOf(grower)).toEqual([]);
  });

  it("is plain text of a bounded length with a subject of one line", () => {
    const faults = (change: object) =>
      letterSchema.safeParse({ ...letter(), ...change }).error?.issues[0]?.message;
    expect(faults({ subject: "  " })).toBe("letter.subject");
    expect(faults({ subject: "x".repeat(121) })).toBe("letter.subject");
    expect(faults({ body: "" })).toBe("letter.body");
    expect(faults({ body: "x".repeat(4001) })).toBe("letter.body");
    expect(faults({ body: "no \0 in a database" })).toBe("letter.body");
    expect(faults({ audience: "home-'; DROP TABLE" })).toBe("letter.audience");
    expect(letter({ subject: "One\r\nBcc: all@example.org" }).subject).toBe("One Bcc: all@example.org");
    expect(letter({ body: "<b>مرحبا</b> 🌾'; --" }).body).toBe("<b>مرحبا</b> 🌾'; --");
  });
});

describe("the link under a letter", () => {
  const click = (token: string) =>
    POST(new Request("http://127.0.0.1/", { method: "POST", body: "List-Unsubscribe=One-Click" }), {
      params: Promise.resolve({ token }),
    });

  it("stops the mails by one request without signing in, and again without harm", async () => {
    const grower = await newGrower(grounds.db, "Grower");
    const token = unsubscribeToken(grower.accountId);
    expect([(await click(token)).status, (await click(token)).status]).toEqual([204, 204]);
    const account = await grounds.db.account.findUniqueOrThrow({ where: { id: grower.accountId } });
    expect(account.leadMailsOff).toBe(true);
  });

  it("does nothing with a token this server didn't make, or made for another account", async () => {
    const [one, two] = [await newGrower(grounds.db, "One"), await newGrower(grounds.db, "Two")];
    const [, signature] = unsubscribeToken(one.accountId).split(".");
    for (const token of [`${two.accountId}.${signature}`, `${one.accountId}.`, one.accountId, "", "a.b.c"]) {
      expect((await click(token)).status, token).toBe(404);
    }
    expect(
      await grounds.db.account.count({
        where: { leadMailsOff: true, id: { in: [one.accountId, two.accountId] } },
      }),
    ).toBe(0);
  });
});
