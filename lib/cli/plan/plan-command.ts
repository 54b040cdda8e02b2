import { planTrial } from "@/lib/engine/design/planner/plan-trial";
import { type CommandIo, EXIT_OK, EXIT_REFUSED } from "../io";
import { readRequest } from "./arguments";
import { textReport } from "./text-report";

export const PLAN_HELP = `plan says which designs there are for a trial and what each can find:
  --arms N              recipes, 2-24; or a factorial by
  --grains A,B,C        its grains, with
  --ratios R,R          its water:grain ratios and, if wanted,
  --minutes M,M         its minutes of cooking
  --boxes K or K-L      boxes in a set, 2-12; of a range every size is looked at
  --growers N           growers who will bring results, and
  --sets S              sets of each (1 if not given); or, once per climate group,
  --group NAME:N:S      its name, growers and sets of each
  --difference D        difference of mean growth (0-4) between two recipes that should be found
  --sd-grower, --sd-grower-arm, --sd-outing, --sd-residual
                        standard deviations of growth: between growers, of a grower's liking for a recipe, between
                        sets of a grower, between boxes of a set; where not given 0.5, 0.5, 0.5 and 1 are assumed
  --earlier             the deviations come from an earlier trial
  --clean-share P       share of boxes with clean growth under one recipe, and
  --clean-difference D  how much higher it is under another
  --margin M            recipes that differ by less in mean growth count as equally good (0.5 if not given)
  --growth-shares P,P,…  shares of a recipe's boxes in each growth class, and
  --odds-ratio R        another recipe's odds to lie in the first so many of them, as a multiple
  --meet-again P        share of later sets that hold a recipe the grower has had (0 if not given)
  --level L             of test and interval, 0.5 to 0.9999 (0.95 if not given)
  --seed TEXT           of searches and simulations: the same seed gives the same answer
  --json                the whole result as JSON
Losses are not foreseen: count the growers and sets that will bring results.
`;

/** `grainlot plan`: exit code 0 with the whole answer, or 2 with none and the reasons on stderr. */
export async function runPlan(argv: readonly string[], io: CommandIo): Promise<number> {
  const read = readRequest(argv);
  if (!read.ok) {
    for (const message of read.messages) io.stderr(`grainlot plan: ${message}\n`);
    return EXIT_REFUSED;
  }
  if (read.help) {
    io.stdout(PLAN_HELP);
    return EXIT_OK;
  }
  const result = planTrial(read.request);
  if (!result.ok) {
    io.stderr(
      `grainlot plan: ${result.sets} sets can't link all recipes; at least ${result.setsNeeded} are needed. ` +
        "Take fewer recipes, more boxes in a set, more growers or more sets.\n",
    );
    return EXIT_REFUSED;
  }
  io.stdout(read.json ? `${JSON.stringify(result, null, 2)}\n` : textReport(result, read.request));
  return EXIT_OK;
}
