import type { Metadata } from "next";
import { type Health, readHealth } from "@/lib/services/health";
import { Facts } from "@/lib/ui/components/facts";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { healthMessages as words } from "@/lib/ui/messages/en/health";

export const dynamic = "force-dynamic";
export const metadata: Metadata = { title: words.title };

export default async function HealthPage() {
  const health = await readHealth();
  return (
    <>
      <PageHeading title={words.title} />
      <Notice kind={health.ready ? "ok" : "due"}>{health.ready ? words.ready : words.notReady}</Notice>
      <Facts items={factsOf(health)} />
    </>
  );
}

function factsOf({ version, database }: Health) {
  const items = [
    { label: words.version, value: version },
    { label: words.database, value: database ? words.answers : words.noAnswer },
  ];
  if (!database) return items;
  const { lastMigration, unfinishedMigrations, trials, boxes, grades, poolsWaiting, poolLagSeconds } =
    database;
  const migration = lastMigration ?? words.notMigrated;
  return [
    ...items,
    {
      label: words.migration,
      value: unfinishedMigrations > 0 ? words.unfinished(migration, unfinishedMigrations) : migration,
    },
    { label: words.counts, value: words.countsOf(trials, boxes, grades) },
    {
      label: words.pooling,
      value: poolsWaiting === 0 ? words.upToDate : words.waiting(poolsWaiting, poolLagSeconds),
    },
  ];
}
