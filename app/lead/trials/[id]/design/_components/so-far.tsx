import type { RunningDesign } from "@/lib/services/lead/design";
import { DataTable } from "@/lib/ui/components/data-table";
import { decimal, whole } from "@/lib/ui/format";
import { designMessages } from "@/lib/ui/messages/en/design";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { recipeNames } from "@/lib/ui/recipe-names";
import type { DesignFigures } from "@/shared/schemas/planner-result";

const { soFar: words, yes, no, notThere, range } = designMessages;

/** Balance, links between recipes and the interval to expect of an opened trial; nothing here knows what grew. */
export function SoFar({ design: { trial, groups, basis } }: { design: RunningDesign }) {
  const drawn = groups.filter(({ sets }) => sets > 0);
  if (drawn.length === 0) return <p>{words.none}</p>;
  const groupName = ({ group }: DesignFigures) => {
    const found = trial.grouping.find(({ code }) => code === group);
    return found ? vocabularyMessages.climateGroupName(found) : group;
  };
  const counted = drawn.filter(({ replication }) => replication.length > 0);
  const apart = drawn.filter(({ connected }) => !connected);
  return (
    <>
      <p className="mb-3 max-w-[44em] font-semibold">
        {apart.length === 0 ? words.linkedWords : words.notLinkedWords(apart.map(groupName))}
      </p>
      {counted.length > 0 ? <Thin groups={counted} trial={trial} groupName={groupName} /> : null}
      <GroupFigures groups={groups} groupName={groupName} />
      <p className="mb-6 max-w-[44em] text-quiet">
        {basis
          ? words.expected(
              designMessages.groupSummary(basis.growersPerGroup, basis.setsPerGrower),
              designMessages.inEach,
            )
          : words.expectedNone}
      </p>
      {counted.length < drawn.length ? (
        <p className="mb-3 max-w-[44em] text-quiet">{words.fewHouseholds}</p>
      ) : null}
      {counted.length > 0 ? <Balance groups={counted} trial={trial} groupName={groupName} /> : null}
    </>
  );
}

interface PartProps {
  readonly groups: readonly DesignFigures[];
  readonly groupName: (figures: DesignFigures) => string;
}
type WithTrial = PartProps & { readonly trial: RunningDesign["trial"] };

function Thin({ groups, trial, groupName }: WithTrial) {
  const nameOf = recipeNames(trial.arms);
  const thin = groups.flatMap((figures) =>
    figures.thinArms.map((arm) => words.thinIn(nameOf(trial.arms[arm]?.code ?? ""), groupName(figures))),
  );
  return <p className="mb-6 max-w-[44em]">{thin.length === 0 ? words.noThin : words.thin(thin)}</p>;
}

function GroupFigures({ groups, groupName }: PartProps) {
  const { columns } = words;
  const figure = (value: number | null, decimals: number) =>
    value === null ? notThere : decimal(value, decimals);
  return (
    <DataTable
      caption={words.caption}
      columns={[
        { key: "group", label: columns.group },
        { key: "sets", label: columns.sets, numeric: true },
        { key: "boxes", label: columns.boxes, numeric: true },
        { key: "range", label: columns.range, numeric: true },
        { key: "linked", label: columns.linked },
        { key: "efficiency", label: columns.efficiency, numeric: true },
        { key: "bound", label: columns.bound, numeric: true },
        { key: "end", label: columns.end, numeric: true },
        { key: "width", label: columns.width, numeric: true },
        { key: "worst", label: columns.worst, numeric: true },
      ]}
      rows={groups.map((figures) => ({
        group: groupName(figures),
        sets: whole(figures.sets),
        boxes: whole(figures.boxes),
        range:
          figures.boxes === 0 || figures.replication.length === 0
            ? notThere
            : range(whole(Math.min(...figures.replication)), whole(Math.max(...figures.replication))),
        linked: figures.sets === 0 ? notThere : figures.connected ? yes : no,
        efficiency: figures.connected ? decimal(figures.efficiency, 3) : notThere,
        bound: figure(figures.efficiencyBound?.value ?? null, 3),
        end: whole(figures.setsAtEnd),
        width: figure(figures.halfWidthAtEnd, 2),
        worst: figure(figures.worstHalfWidthAtEnd, 2),
      }))}
    />
  );
}

/** A lead may name a climate group like any other column. */
const columnOf = ({ group }: DesignFigures) => `group ${group}`;

function Balance({ groups, trial, groupName }: WithTrial) {
  return (
    <DataTable
      caption={words.balanceCaption}
      columns={[
        { key: "recipe", label: words.recipe },
        ...groups.map((figures) => ({ key: columnOf(figures), label: groupName(figures), numeric: true })),
      ]}
      rows={trial.arms.map(({ code, content }, arm) => ({
        recipe: `${vocabularyMessages.recipeName(content)} (${code})`,
        ...Object.fromEntries(
          groups.map((figures) => [columnOf(figures), whole(figures.replication[arm] ?? 0)]),
        ),
      }))}
    />
  );
}
