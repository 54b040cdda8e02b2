import { createServer, type Server, type Socket } from "node:net";
import { createTransport } from "nodemailer";
import { v7 } from "uuid";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { MAIL_ATTEMPTS } from "@/lib/data/mails";
import { env } from "@/lib/env";
import { log } from "@/lib/log";
import { sendWaitingMails } from "@/lib/mail/send";
import { ownGrounds } from "./growing-fixture";

/** As much of a mail server as RFC 5321 asks for, on a socket; refuses recipients with "full" in their address. */
function startMailServer(received: string[]): Promise<Server> {
  const answer = (socket: Socket, line: string): string | null => {
    if (/^(EHLO|HELO)/i.test(line)) return "250 here";
    if (/^RCPT/i.test(line) && line.includes("full")) return "552 <full@example.org> mailbox full";
    if (/^(MAIL|RCPT|RSET)/i.test(line)) return "250 ok";
    if (/^QUIT/i.test(line)) socket.end("221 bye\r\n");
    return /^QUIT/i.test(line) ? null : "500 what?";
  };
  const server = createServer((socket) => {
    let data: string | null = null;
    let rest = "";
    socket.write("220 here\r\n");
    socket.on("data", (chunk) => {
      rest += chunk;
      for (let end = rest.indexOf("\r\n"); end >= 0; end = rest.indexOf("\r\n")) {
        const line = rest.slice(0, end);
        rest = rest.slice(end + 2);
        if (data !== null && line === ".") {
          received.push(data);
          data = null;
          socket.write("250 kept\r\n");
        } else if (data !== null) data += `${line}\n`;
        else if (/^DATA/i.test(line)) {
          data = "";
          socket.write("354 go on\r\n");
        } else {
          const reply = answer(socket, line);
          if (reply) socket.write(`${reply}\r\n`);
        }
      }
    });
  });
  return new Promise((resolve) => server.listen(0, "127.0.0.1", () => resolve(server)));
}

log.level = "silent";

const grounds = ownGrounds();
let server: Server;
const received: string[] = [];

beforeAll(async () => {
  server = await startMailServer(received);
  const { port } = server.address() as { port: number };
  Object.assign(process.env, { GRAINLOT_MODE: "production", SMTP_URL: `smtp://127.0.0.1:${port}` });
});
afterAll(async () => {
  server.close();
});
afterEach(() => grounds.db.mail.deleteMany());

async function waiting(toAddress: string, subject = "Hello"): Promise<string> {
  const id = v7();
  const data = { id, toAddress, kind: "reset", subject, body: "Words\nand http://127.0.0.1/link" };
  await grounds.db.mail.create({ data });
  return id;
}

describe("the outbox", () => {
  it("is sent once, and a sent mail keeps no body", async () => {
    expect(env().GRAINLOT_MODE).toBe("production");
    const id = await waiting("ainhoa@example.org", "A first mail");
    expect(await sendWaitingMails()).toEqual({ sent: 1, failed: 0 });
    expect(await sendWaitingMails()).toEqual({ sent: 0, failed: 0 });
    expect(received.filter((mail) => mail.includes("Subject: A first mail"))).toHaveLength(1);
    const row = await grounds.db.mail.findUniqueOrThrow({ where: { id } });
    expect(row).toMatchObject({ body: "", attempts: 1, failure: null });
    expect(row.sentAt).not.toBeNull();
  });

  it("a refused mail keeps why, without the address, and doesn't hold up the others", async () => {
    const refused = await waiting("full@example.org");
    await waiting("bea@example.org", "A second mail");
    expect(await sendWaitingMails()).toEqual({ sent: 1, failed: 1 });
    const row = await grounds.db.mail.findUniqueOrThrow({ where: { id: refused } });
    expect(row).toMatchObject({ sentAt: null, attempts: 1, failure: "EENVELOPE 552" });
  });

  it("is given up after so many tries", async () => {
    const id = await waiting("full@example.org");
    for (let i = 0; i < MAIL_ATTEMPTS + 2; i++) await sendWaitingMails();
    const row = await grounds.db.mail.findUniqueOrThrow({ where: { id } });
    expect(row.attempts).toBe(MAIL_ATTEMPTS);
  });

  it("two processes at once send each mail once", async () => {
    const before = received.length;
    for (let i = 0; i < 6; i++) await waiting(`grower${i}@example.org`);
    const rounds = await Promise.all([sendWaitingMails(), sendWaitingMails()]);
    expect(rounds.reduce((sum, { sent }) => sum + sent, 0)).toBe(6);
    expect(received.length - before).toBe(6);
  });

  it("waits when the mail server doesn't answer", async () => {
    const id = await waiting("carles@example.org");
    const nowhere = createTransport({ host: "127.0.0.1", port: 1, connectionTimeout: 2_000 });
    expect(await sendWaitingMails(nowhere)).toEqual({ sent: 0, failed: 1 });
    const row = await grounds.db.mail.findUniqueOrThrow({ where: { id } });
    expect(row).toMatchObject({ sentAt: null, failure: expect.stringMatching(/^E[A-Z]+/) });
  });
});
