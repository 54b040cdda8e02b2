/*
 * Size, coverage and calibration of the whole analysis over invented unbalanced trials, kind by kind in chunks that
 * are kept in a file: started again it goes on where it ended. From the project's root, the number of runs per kind
 * and the file following (400 runs take about eight minutes of processor time, 4,000 an hour and a quarter):
 *   npx esbuild tests/simulation/whole/run.ts --bundle --platform=node --format=cjs --outfile=dist/whole-run.cjs
 *   nice -n 19 node dist/whole-run.cjs 400 dist/whole.jsonl
 * Results of another build of the engine are passed over. `table.ts` beside this prints them.
 */
import { createHash } from "node:crypto";
import { appendFileSync, existsSync, readFileSync } from "node:fs";
import { seededSource } from "@/lib/engine/random/source";
import { normalsFrom, type SimulatedTrial } from "@/tests/engine/statistics/simulated-trial";
import { SIMULATION_CELLS, type SimulationCell } from "./cells";
import { figuresOfTrial } from "./figures";
import { poorerPlaces } from "./poorer-places";
import { addClaims, addFigures, type Chunk, emptyChunk, parseChunks } from "./tally";

const [runsText = "400", path = "dist/whole.jsonl", ...kinds] = process.argv.slice(2);
const runs = Number(runsText);
const CHUNK = 50;
if (!Number.isInteger(runs / CHUNK) || runs <= 0)
  throw new RangeError(`The number of runs is a multiple of ${CHUNK}.`);

const build = createHash("sha256").update(readFileSync(__filename)).digest("hex").slice(0, 12);
const done = new Set(
  (existsSync(path) ? parseChunks(readFileSync(path, "utf8")) : [])
    .filter((chunk) => chunk.build === build)
    .map(({ cell, from }) => `${cell}/${from}`),
);
// All kinds a little rather than some wholly: a failure shows early.
for (let from = 0; from < runs; from += CHUNK) {
  for (const cell of SIMULATION_CELLS) {
    if (kinds.length > 0 && !kinds.includes(cell.kind)) continue;
    if (done.has(`${cell.name}/${from}`)) continue;
    appendFileSync(path, `${JSON.stringify(chunkOf(cell, from))}\n`);
  }
}

function chunkOf(cell: SimulationCell, from: number): Chunk {
  const chunk = emptyChunk(build, cell.name, from);
  if (cell.kind === "poorer-places")
    return { ...chunk, figures: poorerPlaces(cell.trial, CHUNK, `${cell.name}/${from}`) };
  for (let run = from; run < from + CHUNK; run++) {
    const seed = `${cell.name}/${run}`;
    const { figures, claims } = figuresOfTrial(trialOf(cell, seed), seed);
    addFigures(chunk, figures);
    if (cell.kind === "effects") addClaims(chunk, claims);
  }
  return chunk;
}

/** Arms of SD .1–.5, drawn evenly per trial, where the kind has effects. */
function trialOf({ kind, trial }: SimulationCell, seed: string): SimulatedTrial {
  if (kind !== "effects") return trial;
  const source = seededSource(`${seed}/effects`);
  const sd = 0.1 + 0.4 * source.unit();
  const normal = normalsFrom(source);
  return { ...trial, armEffects: Array.from({ length: trial.arms }, () => sd * normal()) };
}
