import Link from "next/link";
import type { ReactNode } from "react";
import { DataTable, type TableColumn } from "@/lib/ui/components/data-table";
import { decimal, percent, whole } from "@/lib/ui/format";
import { designMessages as words } from "@/lib/ui/messages/en/design";
import type { Needed, PlannerDesign, PlannerFigures } from "@/shared/schemas/planner-result";
import { designKey, type Place } from "./places";

const SHOWN_AT_ONCE = 6;

interface Props {
  readonly place: Place;
  /** Best first. */
  readonly designs: readonly PlannerDesign[];
  readonly chosen: PlannerDesign;
  /** The page with another design shown. */
  readonly hrefOf: (design: PlannerDesign) => string;
}

/** The candidate designs in one place, and what each can find; the best few at once, the others unfold. */
export function DesignTables(props: Props) {
  const rest = props.designs.length - SHOWN_AT_ONCE;
  return (
    <>
      <BothTables {...props} designs={props.designs.slice(0, SHOWN_AT_ONCE)} />
      {rest > 0 ? (
        <details className="mb-6">
          <summary className="min-h-[44px] cursor-pointer py-2 font-semibold">
            {words.moreDesigns(rest)}
          </summary>
          <BothTables {...props} designs={props.designs.slice(SHOWN_AT_ONCE)} />
        </details>
      ) : null}
    </>
  );
}

function BothTables({ place, designs, chosen, hrefOf }: Props) {
  const { columns } = words;
  const withClean = designs.some((design) => place.figuresOf(design)?.cleanTake);
  const name = (design: PlannerDesign) => (
    <DesignName design={design} isChosen={design === chosen} href={hrefOf(design)} />
  );
  const rows = (cells: (figures: PlannerFigures) => Record<string, ReactNode>) =>
    designs.flatMap((design) => {
      const figures = place.figuresOf(design);
      return figures ? [{ design: name(design), ...cells(figures) }] : [];
    });
  return (
    <>
      <DataTable
        caption={words.findsCaption(place.name)}
        columns={[
          { key: "design", label: columns.design },
          ...(["power", "any", "equivalence"] as const).map((key) => numeric(key)),
          ...(withClean ? [numeric("clean")] : []),
          ...(["halfWidth", "growers80", "growers90"] as const).map((key) => numeric(key)),
        ]}
        rows={rows(findsCells)}
      />
      <DataTable
        caption={words.designsCaption(place.name)}
        columns={[
          { key: "design", label: columns.design },
          numeric("efficiency"),
          numeric("bound"),
          { key: "connected", label: columns.connected },
          numeric("replication"),
          { key: "again", label: columns.again },
        ]}
        rows={rows(designCells)}
      />
    </>
  );
}

function numeric(key: keyof typeof words.columns): TableColumn {
  return { key, label: words.columns[key], numeric: true };
}

function DesignName({ design, isChosen, href }: { design: PlannerDesign; isChosen: boolean; href: string }) {
  const name = words.designName(design.kind, design.boxesPerSet);
  return (
    <span className="block min-w-[6em]">
      {isChosen ? (
        <>
          {name} <span className="block font-normal text-quiet">{words.shown}</span>
        </>
      ) : (
        <Link href={href} data-design={designKey(design)} className="inline-flex min-h-[44px] items-center">
          {name}
        </Link>
      )}
    </span>
  );
}

function findsCells({ growth, cleanTake }: PlannerFigures): Record<string, ReactNode> {
  if (!growth) {
    const keys = ["power", "any", "equivalence", "clean", "halfWidth", "growers80", "growers90"];
    return Object.fromEntries(keys.map((key) => [key, words.notThere]));
  }
  const { simulated, needed } = growth;
  return {
    power: simulated ? withError(simulated.power, simulated.monteCarloError) : percent(growth.power),
    any: percent(growth.anyDifference.power),
    equivalence: percent(growth.equivalencePower),
    clean: cleanTake ? withError(cleanTake.power, cleanTake.monteCarloError) : words.notThere,
    halfWidth: growth.halfWidth === null ? words.notThere : decimal(growth.halfWidth, 2),
    growers80: neededWords(needed.find((each) => each?.power === 0.8)),
    growers90: neededWords(needed.find((each) => each?.power === 0.9)),
  };
}

function designCells(figures: PlannerFigures): Record<string, ReactNode> {
  const { efficiency, efficiencyBound, connected, replication, separability } = figures;
  const { shareNeeded } = separability;
  return {
    efficiency: decimal(efficiency, 3),
    bound: decimal(efficiencyBound.value, 3),
    connected: connected ? words.yes : words.no,
    replication: words.range(whole(replication.min), whole(replication.max)),
    again:
      shareNeeded === null
        ? words.notWithTheseSets
        : shareNeeded === 0
          ? words.byItself
          : percent(shareNeeded),
  };
}

export function withError(chance: number, error: number): string {
  return words.withError(percent(chance), percent(error));
}

function neededWords(needed: Needed | null | undefined): string {
  return needed ? words.needed(whole(needed.growers), whole(needed.boxes)) : words.notReached;
}
