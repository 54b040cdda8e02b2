import { Facts } from "@/lib/ui/components/facts";
import { decimal, momentWords, whole } from "@/lib/ui/format";
import { resultMessages as words } from "@/lib/ui/messages/en/results";
import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import type { ResultsContext } from "./context";
import { count, figure, why } from "./figures";

const { record } = words;

/** What it takes to trace a figure: cut, engine, and how the model was fitted. */
export function Source({ context, computedAt }: { context: ResultsContext; computedAt: Date }) {
  const { result, level } = context;
  const { analysis } = result;
  return (
    <Facts
      items={[
        {
          label: words.cut,
          value: <span className="break-all font-mono font-normal">{result.data.sha256}</span>,
        },
        { label: words.workedOut, value: momentWords(computedAt) },
        { label: words.engine, value: result.engine },
        { label: record.level, value: level },
        ...(analysis ? modelFacts(analysis, context) : []),
        {
          label: words.method,
          value: (
            <span className="font-normal">
              {analysis ? words.methodWithModel : `${words.methodWords} ${record.olderEngine}`}
            </span>
          ),
        },
      ]}
    />
  );
}

function modelFacts(analysis: PoolAnalysis, { nameOf }: ResultsContext) {
  const { model, margin, seed, primary } = analysis;
  const { boxes, outings, growers, reason, warnings } = model;
  return [
    {
      label: words.primary.label,
      value: !primary
        ? words.primary.none
        : primary.kind === "against-reference"
          ? words.primary["against-reference"](nameOf(primary.arm ?? ""))
          : words.primary[primary.kind],
    },
    { label: record.margin, value: margin === null ? record.noMargin : figure(margin) },
    { label: record.fit, value: reason ? why(reason) : record[model.method] },
    { label: record.df, value: record[model.dfMethod] },
    { label: record.random, value: model.random.map((term) => record.randomTerm[term]).join(", ") },
    { label: record.rests, value: words.testBase(count(boxes), count(outings), count(growers)) },
    ...(reason
      ? []
      : [
          { label: record.variances, value: deviations(model) },
          { label: record.criterion, value: figure(model.criterion, 3) },
          { label: record.search, value: record.searched(whole(model.evaluations), model.converged) },
        ]),
    { label: record.seed, value: <span className="break-all font-mono font-normal">{seed}</span> },
    ...(warnings.length > 0
      ? [
          {
            label: record.warnings,
            value: (
              <ul className="list-disc space-y-1 pl-5 font-normal">
                {warnings.map((warning) => (
                  <li key={warning}>{words.warning[warning]}</li>
                ))}
              </ul>
            ),
          },
        ]
      : []),
  ];
}

/** Square roots of the variances; grower × recipe and box as one where they can't be told apart. */
function deviations({ variance, growerArmSeparable }: PoolAnalysis["model"]): string {
  const { outing, grower, growerArm, residual } = variance;
  const together = !growerArmSeparable && growerArm !== null && residual !== null;
  const parts: [string, number | null][] = [
    [record.outing, outing],
    [record.grower, grower],
    ...(together
      ? [[record.inseparable, growerArm + residual] as [string, number | null]]
      : ([
          [record.growerArm, growerArm],
          [record.residual, residual],
        ] as [string, number | null][])),
  ];
  return parts
    .flatMap(([name, value]) =>
      value === null ? [] : [record.deviation(name, decimal(Math.sqrt(Math.max(0, value)), 2))],
    )
    .join("; ");
}
