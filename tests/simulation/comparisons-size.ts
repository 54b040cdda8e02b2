/*
 * Size, coverage and calibration of the comparisons on unbalanced invented data, with Monte Carlo errors. From the
 * project's root (about half an hour; the number of runs and the parts wanted may follow):
 *   npx esbuild tests/simulation/comparisons-size.ts --bundle --platform=node --format=cjs --outfile=dist/comparisons-size.cjs
 *   node dist/comparisons-size.cjs 4000 families calibration crossover logit clean loss
 */
import {
  simulateCleanTake,
  simulateLogitInteraction,
  simulateLossTest,
  simulateOddsRatio,
} from "@/tests/engine/statistics/clean-simulation";
import {
  simulateBestCalibration,
  simulateCrossover,
  simulateFamilies,
} from "@/tests/engine/statistics/comparisons-simulation";
import type { SimulatedShare } from "@/tests/engine/statistics/pool-simulation";

const runs = Number(process.argv[2] ?? 4000);
if (!Number.isInteger(runs) || runs < 2)
  throw new RangeError("The number of runs is a whole number from 2 up.");

const percent = (x: number, digits = 1): string => (x * 100).toFixed(digits).padStart(5);
const shown = ({ share, monteCarloError }: SimulatedShare): string =>
  `${percent(share)} ± ${(monteCarloError * 100).toFixed(1)} %`;

const parts: Record<string, () => void> = {
  families() {
    console.log("Families of 95 % intervals that all hold, unequal groups; best arm excluded");
    for (const means of [
      [2, 2, 2, 2],
      [2, 2.4, 2.4, 1.5],
      [1, 2, 2, 2],
    ]) {
      const { tukey, dunnett, hsu, bestExcluded } = simulateFamilies(
        { boxes: [4, 7, 15, 22], means },
        runs,
        "f",
      );
      const row = [tukey, dunnett, hsu, bestExcluded].map(shown).join("   ");
      console.log(`means ${means.join(" ")}: Tukey–Kramer, Dunnett, Hsu, excluded   ${row}`);
    }
  },
  calibration() {
    console.log("Chance to be the best: claimed, true, arms");
    const { bins, leader } = simulateBestCalibration(runs, "calibration");
    for (const { claimed, true: share, arms, monteCarloError } of bins)
      console.log(
        `${percent(claimed)}  ${percent(share)} ± ${(monteCarloError * 100).toFixed(1)} %  ${arms}`,
      );
    console.log(`the leader: claimed ${percent(leader.claimed)}, true ${percent(leader.true)} %`);
  },
  crossover() {
    console.log("Crossover found at 5 %");
    for (const truths of [
      [3, 0, 0, 0],
      [0.5, 0.5, 0.5, 0.5],
      [1, 0.8, -1, -1.2],
    ])
      console.log(`differences ${truths.join(" ")}: ${shown(simulateCrossover(truths, runs, "crossover"))}`);
  },
  logit() {
    console.log("Arm × group on the cumulative-logit scale, additive effects, called an interaction at 5 %");
    for (const growers of [20, 40, 60]) {
      const trial = { growers, arms: 4, growerArmSd: 0.3, armEffects: [-0.8, 0, 0.6, 1.4] };
      console.log(`${growers} growers: ${shown(simulateLogitInteraction(trial, runs, "logit"))}`);
    }
  },
  clean() {
    console.log(
      "Clean take, null trials called different at 5 %: Mantel–Haenszel, conditional (answered); by outing",
    );
    for (const growers of [10, 15, 20, 40, 60]) {
      for (const growerArmSd of [0, 0.3, 0.6]) {
        for (const arms of [4, 6]) {
          const at = simulateCleanTake({ growers, arms, growerArmSd }, runs, "clean");
          const row = [at.difference, at.conditional].map(shown).join("   ");
          console.log(
            `${growers} growers, ${arms} arms, SD ${growerArmSd}: ${row} (${shown(at.answered)}); ${shown(at.byOuting)}`,
          );
        }
      }
    }
    console.log("95 % intervals of an odds ratio that hold it");
    for (const growers of [20, 40, 60]) {
      for (const growerArmSd of [0, 0.3, 0.6]) {
        const trial = { growers, arms: 4, growerArmSd, armEffects: [0.5, -0.3, 0, 0] };
        console.log(
          `${growers} growers, SD ${growerArmSd}: ${shown(simulateOddsRatio(trial, runs, "odds ratio"))}`,
        );
      }
    }
  },
  loss() {
    console.log(
      "Loss by arm at 5 %, growers and grower × arm differing: by grower; outings taken as independent",
    );
    for (const growers of [10, 15, 20, 40, 60]) {
      for (const growerLossSd of [0, 0.6]) {
        const at = simulateLossTest({ growers, arms: 4, growerArmSd: 0, growerLossSd }, runs, "loss");
        console.log(`${growers} growers, SD ${growerLossSd}: ${shown(at.clustered)}; ${shown(at.plain)}`);
      }
    }
    const planted = {
      growers: 50,
      arms: 4,
      growerArmSd: 0,
      growerLossSd: 0.6,
      armLossShares: [0.3, 0.1, 0.1, 0.1],
    };
    console.log(
      `one recipe lost three times as often, 50 growers: ${shown(simulateLossTest(planted, runs, "loss").clustered)}`,
    );
  },
};

const wanted = process.argv.slice(3);
for (const [name, part] of Object.entries(parts)) if (wanted.length === 0 || wanted.includes(name)) part();
