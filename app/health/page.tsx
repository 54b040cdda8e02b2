import type { Metadata } from "next";
import { currentActor } from "@/lib/auth/session";
import { type AdminHealth, adminHealth, type Health, readHealth } from "@/lib/services/health";
import { reading } from "@/lib/services/run";
import { Facts } from "@/lib/ui/components/facts";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { momentWords } from "@/lib/ui/format";
import { healthMessages as words } from "@/lib/ui/messages/en/health";

export const dynamic = "force-dynamic";
export const metadata: Metadata = { title: words.title };

export default async function HealthPage() {
  const health = await readHealth();
  const actor = health.ready ? await currentActor() : null;
  const more = await reading((tx) => adminHealth(tx, actor, health));
  return (
    <>
      <PageHeading title={words.title} />
      <Notice kind={health.ready ? "ok" : "due"}>{health.ready ? words.ready : words.notReady}</Notice>
      <Facts items={[...factsOf(health), ...(more ? adminFacts(more) : [])]} />
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

function adminFacts(health: AdminHealth) {
  const { mail, freeBytes } = health;
  const when = (moment: Date | null) => (moment ? momentWords(moment) : words.never);
  return [
    { label: words.queue, value: words.queueOf(health.runsQueued, health.runsWorking) },
    { label: words.lastPooled, value: when(health.lastPooledAt) },
    { label: words.mailServer, value: mail.isServerNamed ? words.named : words.notNamed },
    { label: words.outbox, value: words.outboxOf(mail.waiting, mail.givenUp) },
    { label: words.lastSent, value: when(mail.lastSentAt) },
    {
      label: words.pictures,
      value: words.picturesOf(health.pictures, (health.picturesBytes / 1e6).toFixed(1)),
    },
    {
      label: words.disk,
      value: freeBytes === null ? words.unknown : words.gigabytes((freeBytes / 1e9).toFixed(1)),
    },
    { label: words.versions, value: `${health.nodeVersion}, ${health.postgresVersion}` },
  ];
}
