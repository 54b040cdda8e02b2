import type { SiteView } from "@/lib/services/growing/sites";
import { type Fact, Facts } from "@/lib/ui/components/facts";
import { decimal } from "@/lib/ui/format";
import { placeMessages } from "@/lib/ui/messages/en/places";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { SiteClimateRecord } from "@/shared/schemas/site-climate";
import type { KoppenClass } from "@/shared/vocabulary/climate";

const words = placeMessages;

const named = (koppenClass: KoppenClass) => `${koppenClass} (${vocabularyMessages.koppen[koppenClass]})`;

/** Where a place is to 0.1°, its climate and how that was found, and its group in each trial. */
export function SiteFacts({ site }: { site: SiteView }) {
  const { climate } = site;
  const station: Fact[] = climate.station
    ? [
        { label: words.station, value: words.stationValue(climate.station.name, climate.station.country) },
        { label: words.distance, value: words.km(Math.round(climate.station.distanceKm)) },
        { label: words.heightDifference, value: words.height(Math.round(climate.station.heightDifferenceM)) },
      ]
    : [];
  return (
    <>
      <Facts
        items={[
          { label: words.climate, value: named(site.koppenClass) },
          ...site.groups.map(({ trialTitle, group }) => ({
            label: words.groupIn(trialTitle),
            value: group ? vocabularyMessages.climateGroupName(group) : words.noGroup,
          })),
          { label: words.source, value: vocabularyMessages.climateSource[climate.source] },
          ...station,
          { label: words.boundary, value: boundaryWords(climate.nearBoundary) },
          {
            label: words.cell,
            value: words.cellValue(decimal(site.latitude, 1), decimal(site.longitude, 1)),
          },
          { label: words.elevationLabel, value: `${site.elevationM} ${words.metres}` },
        ]}
      />
      {climate.notes.map((note) => (
        <p key={note} className="mb-2 text-quiet">
          {words.notes[note]}
        </p>
      ))}
    </>
  );
}

function boundaryWords(nearBoundary: SiteClimateRecord["nearBoundary"]): string {
  if (nearBoundary === null) return words.boundaryUnknown;
  if (nearBoundary.length === 0) return words.boundaryNone;
  const changes = nearBoundary.map(({ change, koppenClass }) =>
    words.changeGives(words.change[change] ?? change, named(koppenClass)),
  );
  return words.boundaryYes(changes.join(" "));
}
