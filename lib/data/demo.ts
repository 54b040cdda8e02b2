import type { Transaction } from "./client";
import type { Prisma } from "./generated/client";

/** Rows of a trial that has not opened. */
export interface DemoDraftRows {
  readonly trial: Prisma.TrialCreateManyInput;
  readonly leadAccountIds: readonly string[];
  readonly regions: Prisma.TrialRegionCreateManyInput[];
  readonly arms: Prisma.ArmCreateManyInput[];
}

/** Rows of one trial as they stand at its end (or now, while it is open). */
export interface DemoTrialRows extends DemoDraftRows {
  readonly opened: {
    readonly plan: Prisma.InputJsonValue;
    readonly planHash: string;
    readonly seal: string;
    readonly openedAt: Date;
    readonly drawCount: number;
    readonly lastHash: string;
  };
  /** Null while the trial is open. */
  readonly closed: { readonly at: Date; readonly secretHex: string } | null;
  readonly secret: Prisma.TrialSecretCreateManyInput;
  readonly enrolments: Prisma.EnrolmentCreateManyInput[];
  readonly agreements: Prisma.AgreementCreateManyInput[];
  /** With status, group and times as they end up; stored as planned first, for their boxes' sake. */
  readonly outings: DemoOuting[];
  readonly boxes: Prisma.BoxCreateManyInput[];
  readonly draws: Prisma.DrawCreateManyInput[];
  readonly allocations: Prisma.AllocationCreateManyInput[];
  readonly events: Prisma.BoxEventCreateManyInput[];
  readonly grades: Prisma.GradeCreateManyInput[];
}

export type DemoOuting = Prisma.OutingCreateManyInput & {
  /** With what follows it null while the set is only planned. */
  readonly band: string | null;
  readonly koppenClass: string | null;
  readonly committedAt: Date | null;
  readonly abandonedAt: Date | null;
  readonly abandonReason: string | null;
};

export interface DemoPeopleRows {
  readonly households: Prisma.HouseholdCreateManyInput[];
  readonly growers: Prisma.GrowerCreateManyInput[];
  readonly accounts: Prisma.AccountCreateManyInput[];
  readonly sites: Prisma.SiteCreateManyInput[];
  readonly places: Prisma.SitePlaceCreateManyInput[];
}

export async function hasAccounts(tx: Transaction): Promise<boolean> {
  return (await tx.account.findFirst({ select: { id: true } })) !== null;
}

export async function insertDemoPeople(tx: Transaction, rows: DemoPeopleRows): Promise<void> {
  await tx.household.createMany({ data: rows.households });
  await tx.grower.createMany({ data: rows.growers });
  await tx.account.createMany({ data: rows.accounts });
  await tx.site.createMany({ data: rows.sites });
  await tx.sitePlace.createMany({ data: rows.places });
}

export async function insertDemoGround(
  tx: Transaction,
  rows: {
    readonly regions: Prisma.RegionCreateManyInput[];
    readonly variants: Prisma.ProtocolVariantCreateManyInput[];
    readonly shelf: Prisma.ShelfEntryCreateManyInput[];
  },
): Promise<void> {
  await tx.region.createMany({ data: rows.regions });
  await tx.protocolVariant.createMany({ data: rows.variants });
  await tx.shelfEntry.createMany({ data: rows.shelf });
}

export async function insertDemoDraft(tx: Transaction, rows: DemoDraftRows): Promise<void> {
  const { id: trialId } = rows.trial;
  await tx.trial.createMany({ data: { ...rows.trial, status: "draft" } });
  await tx.trialLead.createMany({ data: rows.leadAccountIds.map((accountId) => ({ trialId, accountId })) });
  await tx.trialRegion.createMany({ data: rows.regions });
  await tx.arm.createMany({ data: rows.arms });
}

/** Goes the way a trial goes, for the database lets none of its steps be skipped: draft, open, boxes, draws, close. */
export async function insertDemoTrial(tx: Transaction, rows: DemoTrialRows): Promise<void> {
  const id = rows.trial.id;
  await insertDemoDraft(tx, rows);
  await tx.trialSecret.createMany({ data: rows.secret });
  await tx.trial.update({ where: { id }, data: { ...rows.opened, status: "open" } });
  await tx.enrolment.createMany({ data: rows.enrolments });
  await tx.agreement.createMany({ data: rows.agreements });
  await insertOutings(tx, rows.outings, rows.boxes);
  await tx.draw.createMany({ data: rows.draws });
  await tx.allocation.createMany({ data: rows.allocations });
  await tx.boxEvent.createMany({ data: rows.events });
  await tx.grade.createMany({ data: rows.grades });
  if (!rows.closed) return;
  const { at, secretHex } = rows.closed;
  await tx.trial.update({ where: { id }, data: { status: "closed", closedAt: at, openedSecret: secretHex } });
}

async function insertOutings(
  tx: Transaction,
  outings: readonly DemoOuting[],
  boxes: Prisma.BoxCreateManyInput[],
): Promise<void> {
  const planned = outings.map((outing) => ({
    ...outing,
    status: "planned",
    committedAt: null,
    abandonedAt: null,
    abandonReason: null,
  }));
  await tx.outing.createMany({ data: planned });
  await tx.box.createMany({ data: boxes });
  const ends = outings.map(({ id, status, committedAt, abandonedAt, abandonReason }) => ({
    id,
    status,
    committed_at: committedAt,
    abandoned_at: abandonedAt,
    abandon_reason: abandonReason,
  }));
  await tx.$executeRaw`
    UPDATE outing SET status = ended.status, committed_at = ended.committed_at,
                      abandoned_at = ended.abandoned_at, abandon_reason = ended.abandon_reason
      FROM jsonb_to_recordset(${JSON.stringify(ends)}::jsonb) AS ended
           (id uuid, status text, committed_at timestamptz, abandoned_at timestamptz, abandon_reason text)
     WHERE outing.id = ended.id`;
}

/** Lets a letter's mails be as old as the letter. */
export async function dateDemoLetter(tx: Transaction, subject: string, sentAt: Date): Promise<void> {
  await tx.mail.updateMany({ where: { subject }, data: { createdAt: sentAt } });
}
