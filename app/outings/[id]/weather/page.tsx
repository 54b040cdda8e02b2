import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { EXPOSURE_DAYS } from "@/lib/engine/climate/exposure";
import { type SetWeather, setWeather } from "@/lib/services/growing/weather";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { Facts } from "@/lib/ui/components/facts";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { decimal, weekdayWords } from "@/lib/ui/format";
import { weatherMessages as words } from "@/lib/ui/messages/en/weather";
import { isUuid } from "@/shared/schemas/id";
import { WeatherForm } from "./_components/weather-form";

interface Props {
  params: Promise<{ id: string }>;
}

export const metadata: Metadata = { title: words.title };

/** What a grower's own thermometer and rain gauge said of the days a set stood out. */
export default async function WeatherPage({ params }: Props) {
  const { id } = await params;
  const actor = await requireActor(`/outings/${id}/weather`);
  const weather = isUuid(id) ? await reading((tx) => setWeather(tx, actor, id)) : null;
  if (!weather) notFound();
  return (
    <>
      <PageHeading title={words.title} lead={words.lead(weather.code, EXPOSURE_DAYS)} />
      {weather.isOpen ? <p className="mb-4 max-w-[44em]">{words.how}</p> : null}
      <p className="mb-4 max-w-[44em]">{exposureWords(weather)}</p>
      {weather.isOpen ? (
        <>
          <p className="mb-5 max-w-[44em] text-quiet">{words.use}</p>
          <WeatherForm outingId={weather.outingId} days={weather.days} />
          {weather.toCome > 0 ? <p className="mt-4 text-quiet">{words.toCome(weather.toCome)}</p> : null}
        </>
      ) : (
        <>
          <Notice kind="info">{words.closed}</Notice>
          <Told days={weather.days} />
        </>
      )}
      <p className="mt-6">
        <ButtonLink kind="quiet" href={`/outings/${weather.outingId}`}>
          {words.back}
        </ButtonLink>
      </p>
    </>
  );
}

function exposureWords({ exposure, isOpen }: SetWeather): string {
  if (!exposure) return isOpen ? words.missing : words.neverKnown;
  const { meanC, degreeDays, rainMm } = exposure;
  const said = words.exposure(
    decimal(meanC, 1),
    decimal(degreeDays, 0),
    rainMm === null ? null : decimal(rainMm, 1),
  );
  return `${said} ${words.guide}`;
}

function Told({ days }: { days: SetWeather["days"] }) {
  const saidOf = ({ minC, maxC, rainMm }: SetWeather["days"][number]) => {
    const said = [
      ...(minC === null ? [] : [`${words.minimum} ${decimal(minC, 1)} ${words.celsius}`]),
      ...(maxC === null ? [] : [`${words.maximum} ${decimal(maxC, 1)} ${words.celsius}`]),
      ...(rainMm === null ? [] : [`${words.rain} ${decimal(rainMm, 1)} ${words.millimetres}`]),
    ];
    return said.length > 0 ? said.join(", ") : words.nothing;
  };
  return <Facts items={days.map((day) => ({ label: weekdayWords(day.day), value: saidOf(day) }))} />;
}
