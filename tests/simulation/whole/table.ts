/*
 * Prints what `run.ts` found as Markdown tables, per cent with the Monte Carlo error in brackets, and what lies
 * outside its bounds by more than two such errors. From the project's root:
 *   npx esbuild tests/simulation/whole/table.ts --bundle --platform=node --format=cjs --outfile=dist/whole-table.cjs
 *   node dist/whole-table.cjs dist/whole.jsonl
 */
import { readFileSync } from "node:fs";
import { SIMULATION_CELLS, type SimulationCell } from "./cells";
import { type Chunk, parseChunks } from "./tally";

interface Column {
  readonly figure: string;
  readonly title: string;
  /** The share asked for is that of trials in which the figure is 0. */
  readonly missed?: boolean;
  /** Per cent; the lower bound holds from 20 growers up. */
  readonly bounds: readonly [number, number];
}

const FALSE_ALARMS = [3, 7] as const;
/** For tests that are conservative by construction, or whose null is larger than "no effect at all". */
const AT_MOST = [0, 7] as const;
const COVERAGE = [93, 97] as const;

const OF_NULL: readonly Column[] = [
  { figure: "rank", title: "rank, by grower", bounds: FALSE_ALARMS },
  { figure: "joint", title: "all recipes (F)", bounds: FALSE_ALARMS },
  { figure: "pairLargest", title: "one pair (t)", missed: true, bounds: FALSE_ALARMS },
  { figure: "tukey", title: "Tukey, family", missed: true, bounds: FALSE_ALARMS },
  { figure: "dunnett", title: "Dunnett, family", missed: true, bounds: FALSE_ALARMS },
  { figure: "bestExcluded", title: "Hsu, a best excluded", bounds: FALSE_ALARMS },
  { figure: "cleanDifference", title: "Mantel–Haenszel", bounds: FALSE_ALARMS },
  { figure: "cleanFamily", title: "all pairs and groups, Holm", bounds: AT_MOST },
  { figure: "conditional", title: "conditional logistic", bounds: FALSE_ALARMS },
  { figure: "cleanTests", title: "the same by group, Holm", bounds: AT_MOST },
  { figure: "loss", title: "loss", bounds: FALSE_ALARMS },
  { figure: "interaction", title: "recipe × group (F)", bounds: FALSE_ALARMS },
  { figure: "logit", title: "the same, cumulative logit", bounds: AT_MOST },
  { figure: "crossover", title: "crossover", bounds: AT_MOST },
  { figure: "plainRank", title: "(plain rank χ²)", bounds: [0, 100] },
];

const OF_INTERVALS: readonly Column[] = [
  { figure: "pairLargest", title: "difference, largest group", bounds: COVERAGE },
  { figure: "pairSmallest", title: "difference, smallest group", bounds: COVERAGE },
  { figure: "mean", title: "mean", bounds: COVERAGE },
  { figure: "tukey", title: "Tukey, family", bounds: [93, 100] },
  { figure: "dunnett", title: "Dunnett, family", bounds: COVERAGE },
  { figure: "hsu", title: "Hsu, family", bounds: [93, 100] },
  { figure: "nextSet", title: "next set", bounds: COVERAGE },
  { figure: "trueDifference", title: "true difference", bounds: [92, 100] },
  { figure: "converged", title: "converged", bounds: [99, 100] },
];

const OF_PLANTED: readonly Column[] = [
  { figure: "loss", title: "loss differs", bounds: [0, 100] },
  { figure: "crossover", title: "crossover", bounds: [0, 100] },
];

interface Sums {
  readonly figures: Record<string, [number, number, number]>;
  readonly claims: [number, number, number][];
}

const chunks = parseChunks(readFileSync(process.argv[2] ?? "dist/whole.jsonl", "utf8"));
const latest = chunks.at(-1)?.build;
const sums = new Map(
  SIMULATION_CELLS.map(({ name }) => [
    name,
    summed(chunks.filter(({ build, cell }) => build === latest && cell === name)),
  ]),
);
const outside: string[] = [];

summary("false alarms at 5 %, equal recipes", ["null"], OF_NULL);
summary("95 % intervals hold the truth", ["null", "effects"], OF_INTERVALS);
section("False alarms at 5 %, equal recipes", ["null"], OF_NULL);
section("95 % intervals hold the truth, equal recipes", ["null"], OF_INTERVALS);
section("95 % intervals hold the truth, recipes of SD .1–.5", ["effects"], OF_INTERVALS);
section(
  "Equal recipes, growers without one of them have poorer places",
  ["poorer-places"],
  [
    { figure: "joint", title: "all recipes (F)", bounds: FALSE_ALARMS },
    ...OF_INTERVALS.filter(({ figure }) => ["pairLargest", "nextSet", "trueDifference"].includes(figure)),
  ],
);
section("Planted differences found", ["loss", "crossover"], OF_PLANTED);
section(
  "Crossover where least favoured: false alarms",
  ["crossover-boundary"],
  [{ figure: "crossover", title: "crossover", bounds: FALSE_ALARMS }],
);
calibration();
console.log(`\n${outside.length === 0 ? "Nothing lies outside its bounds." : "Outside the bounds:"}`);
for (const line of outside) console.log(`- ${line}`);

function summed(own: readonly Chunk[]): Sums {
  const figures: Record<string, [number, number, number]> = {};
  const claims = Array.from({ length: 10 }, (): [number, number, number] => [0, 0, 0]);
  const add = (to: [number, number, number], from: readonly [number, number, number]): void => {
    for (const i of [0, 1, 2] as const) to[i] += from[i];
  };
  for (const chunk of own) {
    for (const [name, values] of Object.entries(chunk.figures)) {
      figures[name] ??= [0, 0, 0];
      add(figures[name], values);
    }
    chunk.claims.forEach((values, bin) => {
      add(claims[bin]!, values);
    });
  }
  return { figures, claims };
}

/** Lowest and highest figure over kinds of trials, the largest Monte Carlo error in brackets. */
function summary(title: string, kinds: readonly SimulationCell["kind"][], columns: readonly Column[]): void {
  console.log(`\n| ${title} | 20–60 growers | 10–15 growers |\n| --- | ---: | ---: |`);
  const cells = SIMULATION_CELLS.filter(({ kind }) => kinds.includes(kind));
  for (const column of columns) {
    const range = (wanted: (growers: number) => boolean): string => {
      const found = cells
        .filter(({ trial }) => wanted(trial.growers))
        .flatMap(({ name }) => {
          const own = sums.get(name)!.figures[column.figure];
          return own ? [shareOf(own, column)] : [];
        });
      if (found.length === 0) return "";
      const percents = found.map(({ percent }) => percent);
      const error = Math.max(...found.map((own) => own.error));
      return `${Math.min(...percents).toFixed(1)}–${Math.max(...percents).toFixed(1)} % (${error.toFixed(1)})`;
    };
    const [many, few] = [range((growers) => growers >= 20), range((growers) => growers < 20)];
    console.log(`| ${column.title} | ${many} | ${few} |`);
  }
}

function section(title: string, kinds: readonly SimulationCell["kind"][], columns: readonly Column[]): void {
  console.log(`\n${title}\n`);
  console.log(`| growers | arms | SD grower × arm | runs | ${columns.map((own) => own.title).join(" | ")} |`);
  console.log(`|${" ---: |".repeat(columns.length + 4)}`);
  for (const { name, kind, trial } of SIMULATION_CELLS) {
    const found = sums.get(name)!;
    const [runs] = found.figures.converged ?? [0];
    if (!kinds.includes(kind) || runs === 0) continue;
    const shown = columns.map((column) => cellText(found, column, name, trial.growers));
    console.log(`| ${[trial.growers, trial.arms, trial.growerArmSd, runs, ...shown].join(" | ")} |`);
  }
}

function cellText({ figures }: Sums, column: Column, name: string, growers: number): string {
  const own = figures[column.figure];
  if (!own) return "";
  const [n, sum, squares] = own;
  const { percent, error } = shareOf(own, column);
  const text = `${percent.toFixed(1)} (${error.toFixed(1)})`;
  const [from, to] = column.bounds;
  // Of a yes-or-no figure the error at the bound, so that none of few runs doesn't pass for certain.
  const slack = (bound: number): number =>
    2 * (squares === sum ? Math.sqrt((bound * (100 - bound)) / n) : error);
  const low = growers >= 20 && percent < from - slack(from);
  if (low || percent > to + slack(to)) outside.push(`${name}: ${column.title} ${text}, bounds ${from}–${to}`);
  return text;
}

function shareOf([n, sum, squares]: readonly [number, number, number], { missed }: Column) {
  const mean = sum / n;
  const error = 100 * Math.sqrt(Math.max(0, squares / n - mean * mean) / n);
  return { percent: 100 * (missed ? 1 - mean : mean), error };
}

function calibration(): void {
  console.log("\nChance to be the best, recipes of SD .1–.5\n");
  console.log("| claimed | came true | arms |\n| ---: | ---: | ---: |");
  const all = SIMULATION_CELLS.filter(({ kind }) => kind === "effects").map(
    ({ name }) => sums.get(name)!.claims,
  );
  for (let bin = 0; bin < 10; bin++) {
    const [arms, claimed, hits] = [0, 1, 2].map((i) =>
      all.reduce((sum, own) => sum + own[bin]![i as 0 | 1 | 2], 0),
    ) as [number, number, number];
    if (arms === 0) continue;
    const [chance, share] = [claimed / arms, hits / arms];
    const error = Math.sqrt((chance * (1 - chance)) / arms);
    const text = `${(100 * share).toFixed(1)} (${(100 * error).toFixed(1)})`;
    console.log(`| ${(100 * chance).toFixed(1)} | ${text} | ${arms} |`);
    if (Math.abs(share - chance) > 0.02 + 2 * error)
      outside.push(`chance to be the best claimed ${(100 * chance).toFixed(1)}: ${text}, bounds ± 2`);
  }
}
