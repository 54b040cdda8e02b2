import { GrowthTable } from "@/lib/ui/charts/growth-table";
import { resultMessages as words } from "@/lib/ui/messages/en/results";
import { byMean } from "./answer";
import { ArmTables } from "./arm-tables";
import { type ResultsContext, regionsOf } from "./context";
import { figure } from "./figures";
import { Fold } from "./fold";

/** Plain means of every recipe in every region: descriptive, nothing is compared there. */
export function Regions({ context }: { context: ResultsContext }) {
  const { result, nameOf, trial } = context;
  const regions = regionsOf(context);
  const meanOf = (code: string, arm: string) =>
    result.regions.find((one) => one.region === code && one.arm === arm)?.mean.estimate ?? null;
  return (
    <>
      <GrowthTable
        caption={words.regionCaption}
        corner={words.columns.recipe}
        columns={regions.map(({ name }) => name)}
        rows={trial.recipes.map(({ code: arm }) => ({
          name: nameOf(arm),
          cells: regions.map(({ code }) => {
            const mean = meanOf(code, arm);
            return { mean, text: figure(mean), isBest: false };
          }),
        }))}
      />
      {regions.map(({ code, name }) => (
        <Fold key={code} kind="detail" title={words.regionNumbers(name)}>
          <ArmTables
            where={name}
            summaries={result.regions.filter(({ region }) => region === code).sort(byMean)}
            context={context}
          />
        </Fold>
      ))}
    </>
  );
}
