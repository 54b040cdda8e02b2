/*
 * How fast a page answers while several readers ask at once: 8 connections kept alive, each asking again as soon as it
 * has its answer. Prints latency, which depends on what else the machine does, and the server's processor time per
 * answer, which hardly does. Linux. From the project's root, while `npm start` runs there:
 *   npx esbuild tests/benchmark/results-page.ts --bundle --platform=node --format=cjs --outfile=dist/results-page.cjs
 *   node dist/results-page.cjs http://127.0.0.1:3000/trials/demo-three-grains/results SERVER_PID
 * SERVER_PID is that of the process named `next-server` (`pgrep next-server`). The database's and this program's own
 * processor time aren't counted.
 */
import { readFileSync } from "node:fs";
import { Agent, get } from "node:http";

const CONNECTIONS = 8;
const WARM_UP_MS = 5_000;
const MEASURED_MS = 20_000;
const MS_PER_TICK = 10;

interface Answer {
  readonly tookMs: number;
  readonly bytes: number;
}

const [address, pid] = process.argv.slice(2);
if (!address || !pid) throw new Error("Give the page's address and the server's process id.");
const agent = new Agent({ keepAlive: true, maxSockets: CONNECTIONS });
main(address, pid).finally(() => agent.destroy());

async function main(page: string, server: string): Promise<void> {
  await ask(page, WARM_UP_MS);
  const [before, from] = [processorMs(server), performance.now()];
  const answers = await ask(page, MEASURED_MS);
  const seconds = (performance.now() - from) / 1000;
  const processor = (processorMs(server) - before) / answers.length;
  const times = answers.map(({ tookMs }) => tookMs).sort((a, b) => a - b);
  const at = (share: number): string => times[Math.ceil(share * times.length) - 1]!.toFixed(0);
  console.log(
    `${answers.length} answers of ${(answers[0]!.bytes / 1024).toFixed(0)} KiB as sent, ` +
      `${(answers.length / seconds).toFixed(0)} a second; median ${at(0.5)} ms, 95 % within ${at(0.95)} ms; ` +
      `${processor.toFixed(1)} ms of the server's processor time each`,
  );
}

async function ask(page: string, forMs: number): Promise<Answer[]> {
  const answers: Answer[] = [];
  const end = performance.now() + forMs;
  await Promise.all(
    Array.from({ length: CONNECTIONS }, async () => {
      while (performance.now() < end) answers.push(await answer(page));
    }),
  );
  return answers;
}

/** Compressed, as browsers ask for it. */
function answer(page: string): Promise<Answer> {
  const from = performance.now();
  return new Promise((resolve, reject) => {
    get(page, { agent, headers: { "accept-encoding": "gzip" } }, (response) => {
      let bytes = 0;
      response.on("data", (part: Buffer) => {
        bytes += part.length;
      });
      response.on("error", reject);
      response.on("end", () => {
        if (response.statusCode === 200) resolve({ tookMs: performance.now() - from, bytes });
        else reject(new Error(`${page} answered ${response.statusCode}, so nothing is measured.`));
      });
    }).on("error", reject);
  });
}

/** User and system time of a process: fields 14 and 15 of proc(5)'s stat; the name in field 2 may hold spaces. */
function processorMs(server: string): number {
  const fields = readFileSync(`/proc/${server}/stat`, "utf8").split(") ").at(-1)!.split(" ");
  return (Number(fields[11]) + Number(fields[12])) * MS_PER_TICK;
}
