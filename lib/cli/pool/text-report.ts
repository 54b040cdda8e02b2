import type { PoolRank, PoolResult, PoolShare } from "@/shared/schemas/pool";
import type { FittedCell, PoolAnalysis } from "@/shared/schemas/pool-analysis";
import { type Axis, axisLabels, axisOver, drawInterval } from "./interval-chart";
import { bestAndReference, contrastTable, interactionWords } from "./text-comparisons";
import { modelWords, sensitivityTable } from "./text-model";
import { levelWords, noteWords, number, percent, pValue, reasonWords } from "./text-words";

/** The result as a person reads it in a terminal. */
export function textReport(result: PoolResult, title: string): string {
  const { analysis } = result;
  if (!analysis) throw new Error("A result pooled just now has an analysis.");
  return [
    heading(result, title),
    cellTable(result, analysis),
    contrastTable(analysis),
    bestAndReference(analysis),
    interactionWords(analysis),
    rankParagraph(result.rank, result.rankByBand),
    lossTable(result, analysis),
    sensitivityTable(analysis),
    modelWords(analysis),
    result.notes.map((note) => noteWords[note]),
  ]
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join("\n")}\n`)
    .join("\n");
}

function heading({ data, engine }: PoolResult, title: string): string[] {
  return [
    `${title}: ${data.rows} boxes of ${data.growers} growers in ${data.outings} outings`,
    `${data.analysed} with an outcome, ${data.lost} lost, ${data.unmeasured} not measured`,
    `${engine}, data sha256 ${data.sha256}`,
  ];
}

function cellTable({ cells: counted, level }: PoolResult, { cells }: PoolAnalysis): string[] {
  const axis = axisOver(cells);
  const names = Math.max(6, ...cells.map(({ arm }) => arm.length));
  const columns = `boxes outings growers lost   mean  ${`${levelWords(level)} interval`.padStart(16)}`;
  const lines = [
    "Mean outcome by climate group and recipe, and the chance that its mean is the best of the group",
    `${"".padEnd(names)}  ${columns}    best  ${axisLabels(axis)}`,
  ];
  let band: string | null = null;
  for (const cell of cells) {
    if (cell.band !== band) lines.push(cell.band);
    band = cell.band;
    const counts = counted.find((one) => one.band === cell.band && one.arm === cell.arm)!.counts;
    lines.push(`${cell.arm.padEnd(names)}  ${cellFigures(cell, counts.lost, axis)}`.trimEnd());
  }
  return lines;
}

function cellFigures(cell: FittedCell, lost: number | null, axis: Axis): string {
  const base = [
    String(cell.boxes ?? "-").padStart(5),
    String(cell.outings ?? "-").padStart(7),
    String(cell.growers ?? "-").padStart(7),
    String(lost).padStart(4),
    number(cell.estimate).padStart(6),
  ].join(" ");
  if (cell.reason) return `${base}  ${reasonWords[cell.reason]}`;
  const interval = `${number(cell.lower)} to ${number(cell.upper)}`.padStart(16);
  const chance = cell.chanceBest === null ? "-" : `${Math.round(100 * cell.chanceBest)} %`;
  return `${base}  ${interval}  ${chance.padStart(6)}  ${drawInterval(cell, axis)}`;
}

function rankParagraph(rank: PoolRank, byBand: PoolResult["rankByBand"]): string[] {
  const lines = ["Do recipes differ in rank within outings?"];
  const names = ["all groups", ...byBand.map(({ band }) => band)];
  const width = Math.max(...names.map((name) => name.length));
  [rank, ...byBand].forEach((test, i) => {
    lines.push(`${names[i]!.padEnd(width)}  ${clusteredWords(test)}`);
  });
  if (rank.p !== null) {
    lines.push(
      `Plain form over all groups: chi-square ${number(rank.chiSquare)} on ${rank.df}, p ${pValue(rank.p)}; it takes`,
      "a grower's outings as independent, so it is too ready to see a difference.",
    );
  }
  return lines;
}

function clusteredWords({ clustered }: PoolRank): string {
  const { p, statistic, df1, df2, growers, method, permutations, reason } = clustered;
  if (p === null) return reasonWords[reason ?? "NO_BLOCKS"];
  const how =
    method === "HOTELLING_F"
      ? `F ${number(statistic)} on ${df1} and ${df2}`
      : `${permutations} permutations of recipes within growers`;
  return `p ${pValue(p)}  (${how}, ${growers} growers)`;
}

function lossTable({ loss, level }: PoolResult, { lossTest }: PoolAnalysis): string[] {
  const names = Math.max(6, ...loss.map(({ arm }) => arm.length));
  return [
    "Boxes lost by recipe (descriptive)",
    `${"".padEnd(names)}   lost of boxes   share  ${levelWords(level)} interval`,
    ...loss.map((one) => {
      const counted = `${String(one.lost).padStart(4)} of ${String(one.boxes).padStart(5)}`;
      return `${one.arm.padEnd(names)}   ${counted}  ${percent(one.share).padStart(6)}  ${shareInterval(one)}`;
    }),
    `Do recipes lose boxes at different rates? ${lossTest.reason ? reasonWords[lossTest.reason] : `p ${pValue(lossTest.p)}`}`,
  ];
}

function shareInterval({ lower, upper, reason }: PoolShare): string {
  return reason ? reasonWords[reason] : `${percent(lower)} to ${percent(upper)}`;
}
