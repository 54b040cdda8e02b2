import Link from "next/link";
import type { ReactNode } from "react";
import { basisOf } from "@/lib/services/lead/design";
import { Notice } from "@/lib/ui/components/notice";
import { decimal, percent } from "@/lib/ui/format";
import { designMessages as words } from "@/lib/ui/messages/en/design";
import type { PlanChoices } from "@/shared/schemas/plan";
import type { PlannerRequest } from "@/shared/schemas/planner";
import {
  DESIGN_KINDS,
  type PlannerDesign,
  type PlannerFigures,
  type PlannerResult,
} from "@/shared/schemas/planner-result";
import { adviceByGroup } from "./advice-words";
import { Curve } from "./curve";
import { DesignTables, withError } from "./design-tables";
import { designKey, type Place, placesOf } from "./places";
import { TakeFigures } from "./take-figures";

interface Props {
  readonly trialId: string;
  readonly request: PlannerRequest;
  readonly result: PlannerResult;
  readonly choices: PlanChoices;
  readonly groupNames: ReadonlyMap<string, string>;
  /** The page's query, to be sent again. */
  readonly query: string;
  /** The design to show, as in the query; the best where there is none such. */
  readonly shown: string | undefined;
}

/** What the planner answers: advice first, then the designs in tables, the curve of one, and the way into the plan. */
export function Found(props: Props) {
  const { trialId, request, result, choices, groupNames, query, shown } = props;
  const chosen = result.designs.find((design) => designKey(design) === shown) ?? result.designs[0];
  if (!chosen) return null;
  const places = placesOf(result, groupNames);
  const hrefOf = (design: PlannerDesign) => `?${withDesign(query, designKey(design))}#found`;
  const basis = basisOf(request, result, chosen);
  return (
    <>
      <Advice result={result} groupNames={groupNames} />
      <h2 className="mb-2">{words.designs}</h2>
      {places.map((place) => (
        <PlaceFigures key={place.key} place={place} isOnly={places.length === 1}>
          <DesignTables place={place} designs={result.designs} chosen={chosen} hrefOf={hrefOf} />
          <Checked figures={place.figuresOf(chosen)} />
          <Curve place={place} design={chosen} />
        </PlaceFigures>
      ))}
      <Notes designs={result.designs} />
      {basis ? (
        <TakeFigures
          trialId={trialId}
          query={withDesign(query, designKey(chosen))}
          design={words.designName(chosen.kind, chosen.boxesPerSet)}
          stands={JSON.stringify(choices.sampleSize) === JSON.stringify(basis)}
        />
      ) : null}
      <p className="mt-4">
        <Link href={`/lead/trials/${trialId}`} className="inline-flex min-h-[44px] items-center">
          {words.back}
        </Link>
      </p>
    </>
  );
}

/** All groups together unfold: what holds there holds only if recipes do the same everywhere. */
function PlaceFigures({ place, isOnly, children }: { place: Place; isOnly: boolean; children: ReactNode }) {
  if (place.key === "together") {
    return (
      <details className="mb-6">
        <summary className="min-h-[44px] cursor-pointer py-2 font-semibold">{place.name}</summary>
        <p className="mb-3 text-quiet">{words.togetherNote}</p>
        {children}
      </details>
    );
  }
  return (
    <section className="mb-6">
      {isOnly ? null : <h3 className="mb-2">{place.heading}</h3>}
      {children}
    </section>
  );
}

function withDesign(query: string, design: string): string {
  const params = new URLSearchParams(query);
  params.set("design", design);
  return params.toString();
}

/** What the columns and the kinds of design mean. */
function Notes({ designs }: { designs: readonly PlannerDesign[] }) {
  const kinds = DESIGN_KINDS.filter((kind) => designs.some((design) => design.kind === kind));
  return (
    <div className="max-w-[44em] text-[0.9375rem] text-quiet">
      {words.columnNotes.map((note) => (
        <p key={note} className="mb-2">
          {note}
        </p>
      ))}
      <ul>
        {kinds.map((kind) => (
          <li key={kind}>{words.kindNotes[kind]}</li>
        ))}
      </ul>
    </div>
  );
}

function Advice({ result, groupNames }: Pick<Props, "result" | "groupNames">) {
  const advice = adviceByGroup(result.advice, groupNames);
  if (advice.length === 0) return null;
  return (
    <section className="mb-6">
      <h2 className="mb-2">{words.advice.title}</h2>
      <Notice kind="info">
        <ul className="space-y-1.5">
          {advice.map(({ sentence, groups }) => (
            <li key={sentence}>
              {groups.length > 0 ? (
                <span className="font-normal">{words.advice.for(groups.join("; "))}</span>
              ) : null}
              {sentence}
            </li>
          ))}
        </ul>
      </Notice>
    </section>
  );
}

/** From here on the tables show an efficiency as 1.000, and nothing limits it. */
const FULL_EFFICIENCY = 0.9995;

/** How the chosen design's figures were checked, and what a factorial adds. */
function Checked({ figures }: { figures: PlannerFigures | null }) {
  const growth = figures?.growth;
  if (!growth) return null;
  const { simulated, factors } = growth;
  const bound = figures.efficiencyBound;
  return (
    <div className="mb-3 max-w-[44em] text-[0.9375rem] text-quiet">
      {simulated ? (
        <p>
          {words.simulatedNote(percent(growth.power), withError(simulated.power, simulated.monteCarloError))}
        </p>
      ) : null}
      {factors.length > 0 ? (
        <p>
          {words.factors(
            factors.map(({ factor, power }) => words.factorChance(factor, percent(power))).join(", "),
          )}
        </p>
      ) : null}
      <p>
        {words.worstPair(percent(growth.worstPairPower), decimal(growth.df, 0))}{" "}
        {bound.value < FULL_EFFICIENCY ? words.boundIs(bound.by) : null}
      </p>
    </div>
  );
}
