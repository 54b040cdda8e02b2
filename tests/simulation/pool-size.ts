/*
 * Size of the rank tests and coverage of the intervals on unbalanced invented trials, with Monte Carlo errors.
 * From the project's root (about five minutes; the number of runs may follow):
 *   npx esbuild tests/simulation/pool-size.ts --bundle --platform=node --format=cjs --outfile=dist/pool-size.cjs
 *   node dist/pool-size.cjs 4000
 */
import {
  type SimulatedShare,
  simulateCoverage,
  simulateRankSize,
} from "@/tests/engine/statistics/pool-simulation";

const runs = Number(process.argv[2] ?? 4000);
if (!Number.isInteger(runs) || runs < 2)
  throw new RangeError("The number of runs is a whole number from 2 up.");

const shown = ({ share, monteCarloError }: SimulatedShare): string =>
  `${(share * 100).toFixed(1).padStart(5)} ± ${(monteCarloError * 100).toFixed(1)} %`;

console.log(`Rank test: share of ${runs} null trials called different at 5 %`);
console.log("growers  arms  SD grower×arm    plain form       clustered form");
for (const growers of [10, 15, 20, 40, 60]) {
  for (const arms of [4, 6]) {
    for (const growerArmSd of [0, 0.3, 0.6]) {
      const { plain, clustered } = simulateRankSize({ growers, arms, growerArmSd }, runs, "size");
      const trial = `${String(growers).padStart(7)}  ${String(arms).padStart(4)}  ${String(growerArmSd).padStart(13)}`;
      console.log(`${trial}    ${shown(plain)}    ${shown(clustered)}`);
    }
  }
}

console.log(`\n95 % intervals: share of cells that hold the truth, ${runs} trials, SD grower×arm 0.6`);
console.log("growers  arms    mean growth      clean take       loss by arm");
const armEffects = [-0.4, 0, 0.3, 0.6];
for (const growers of [20, 40, 60]) {
  const trial = { growers, arms: armEffects.length, growerArmSd: 0.6, armEffects };
  const { mean, cleanTake, loss } = simulateCoverage(trial, runs, "coverage");
  const name = `${String(growers).padStart(7)}  ${String(armEffects.length).padStart(4)}`;
  console.log(`${name}    ${shown(mean)}    ${shown(cleanTake)}    ${shown(loss)}`);
}
