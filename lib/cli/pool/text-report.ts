import type { PoolMean, PoolNote, PoolRank, PoolReason, PoolResult, PoolShare } from "@/shared/schemas/pool";
import { type Axis, axisLabels, axisOver, drawInterval } from "./interval-chart";

/** The result as a person reads it in a terminal. */
export function textReport(result: PoolResult, title: string): string {
  return [
    heading(result, title),
    cellTable(result),
    rankParagraph(result.rank, result.rankByBand),
    lossTable(result),
    footnotes(result),
  ]
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

function cellTable({ cells, level }: PoolResult): string[] {
  const axis = axisOver(cells.map(({ mean }) => mean));
  const names = Math.max(6, ...cells.map(({ arm }) => arm.length));
  const columns = `boxes outings growers lost   mean  ${`${levelWords(level)} interval`.padStart(16)}`;
  const lines = [
    "Mean outcome by climate group and recipe, the grower as the unit",
    `${"".padEnd(names)}  ${columns}  ${axisLabels(axis)}`,
  ];
  let band: string | null = null;
  for (const cell of cells) {
    if (cell.band !== band) lines.push(cell.band);
    band = cell.band;
    lines.push(`${cell.arm.padEnd(names)}  ${cellFigures(cell.mean, cell.counts.lost, axis)}`.trimEnd());
  }
  return lines;
}

function cellFigures(mean: PoolMean, lost: number | null, axis: Axis): string {
  const base = [
    String(mean.boxes).padStart(5),
    String(mean.outings).padStart(7),
    String(mean.growers).padStart(7),
    String(lost).padStart(4),
    number(mean.estimate).padStart(6),
  ].join(" ");
  const marked = mean.warnings.includes("FEW_GROWERS") ? "*" : " ";
  if (mean.reason) return `${base}${marked} ${reasonWords[mean.reason]}`;
  const interval = `${number(mean.lower)} to ${number(mean.upper)}`.padStart(16);
  return `${base}${marked} ${interval}  ${drawInterval(mean, axis)}`;
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

function lossTable({ loss, level }: PoolResult): string[] {
  const names = Math.max(6, ...loss.map(({ arm }) => arm.length));
  return [
    "Boxes lost by recipe (descriptive)",
    `${"".padEnd(names)}   lost of boxes   share  ${levelWords(level)} interval`,
    ...loss.map((one) => {
      const counted = `${String(one.lost).padStart(4)} of ${String(one.boxes).padStart(5)}`;
      return `${one.arm.padEnd(names)}   ${counted}  ${percent(one.share).padStart(6)}  ${shareInterval(one)}`;
    }),
  ];
}

function shareInterval({ lower, upper, reason }: PoolShare): string {
  return reason ? reasonWords[reason] : `${percent(lower)} to ${percent(upper)}`;
}

function footnotes({ cells, notes }: PoolResult): string[] {
  const lines = notes.map((note) => noteWords[note]);
  if (cells.some(({ mean }) => mean.warnings.includes("FEW_GROWERS"))) {
    lines.push("* Fewer than 10 growers: take the interval as rough.");
  }
  lines.push(
    "Means by recipe are not yet a fair comparison where growers did not all have the same recipes.",
  );
  return lines;
}

const reasonWords: Readonly<Record<PoolReason, string>> = {
  NO_BOXES: "no box with an outcome",
  TOO_FEW_GROWERS: "not enough growers yet",
  NO_VARIATION: "all alike: no interval",
  NOT_A_GROWTH_CLASS: "not a growth class",
  ONE_ARM: "only one recipe",
  NO_BLOCKS: "no outing with two measured boxes",
  INTERIM: "not before the end",
  WITHHELD: "withheld",
};

const noteWords: Readonly<Record<PoolNote, string>> = {
  NO_ANALYSED_BOXES: "No box has an outcome.",
  ONE_ARM: "There is only one recipe: nothing to compare.",
  SINGLE_BOX_OUTINGS_SKIPPED: "Outings with a single measured box are left out of the rank test.",
  ARMS_NOT_LINKED:
    "No chain of outings joins all recipes: they are compared within the groups that are joined.",
  UNMEASURED_BOXES: "Boxes graded without an outcome are counted and not analysed.",
  SMALL_CELLS_WITHHELD: "Small cells are withheld.",
};

function number(value: number | null): string {
  return value === null ? "-" : value.toFixed(2);
}

function percent(share: number | null): string {
  return share === null ? "-" : `${(share * 100).toFixed(1)} %`;
}

/** 0.95 as 95 %, 0.999 as 99.9 %. */
function levelWords(level: number): string {
  return `${Number((level * 100).toPrecision(4))} %`;
}

function pValue(p: number): string {
  return p < 0.0001 ? p.toExponential(1) : p.toFixed(4);
}
