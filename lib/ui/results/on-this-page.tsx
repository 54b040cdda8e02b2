import { resultMessages as words } from "@/lib/ui/messages/en/results";
import { seasonMessages, warmthMessages } from "@/lib/ui/messages/en/results-standing";
import type { ResultsContext } from "./context";
import { places } from "./places";

/** Links to every part; following one opens it. */
export function OnThisPage({ context }: { context: ResultsContext }) {
  const { groups, groupName, result } = context;
  const { analysis } = result;
  const links: [string, string][] = [
    ...groups.map(({ code }): [string, string] => [places.group(code), groupName(code)]),
    [places.everywhere, words.everywhere.title],
    ...(analysis
      ? (
          [
            [places.seasons, seasonMessages.title, analysis.seasons ? 1 : 0],
            [places.warmth, warmthMessages.title, analysis.warmth ? 1 : 0],
            [places.factors, words.factors.title, analysis.factors.length],
            [places.moisture, words.moisture.title, analysis.moisture.length],
            [places.usable, words.usable.title, analysis.usable ? 1 : 0],
            [places.sensitivity, words.sensitivity.title, analysis.sensitivity.length],
            [places.agreement, words.agreement.title, 1],
            [places.growers, words.growers.title, analysis.growers.length],
          ] as const
        )
          .filter(([, , items]) => items > 0)
          .map(([id, title]): [string, string] => [id, title])
      : []),
    [places.losses, words.lossTitle],
    ...(result.regions.length > 0 ? [[places.regions, words.byRegion] as [string, string]] : []),
    [places.source, words.source],
  ];
  return (
    <nav aria-label={words.onThisPage} className="mb-8">
      <ul className="flex flex-wrap gap-x-5">
        {links.map(([id, name]) => (
          <li key={id}>
            <a href={`#${id}`} className="inline-flex min-h-11 items-center">
              {name}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}
