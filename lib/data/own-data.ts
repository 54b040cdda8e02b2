import type { Transaction } from "./client";
import { LETTER } from "./mails";

export interface Owner {
  readonly accountId: string;
  readonly growerId: string;
  readonly householdId: string;
}

/** Everything kept about one person, except the password's hash and other people's things. */
export async function ownData(tx: Transaction, { accountId, growerId, householdId }: Owner) {
  const ofGrower = { where: { growerId }, orderBy: { id: "asc" } } as const;
  const ofAccount = { where: { accountId } } as const;
  return {
    account: await tx.account.findUniqueOrThrow({
      where: { id: accountId },
      select: {
        id: true,
        name: true,
        email: true,
        isAdmin: true,
        mayLead: true,
        leadMailsOff: true,
        createdAt: true,
        growerId: true,
        grower: { select: { household: true } },
        leads: { select: { trial: { select: { slug: true, title: true } } } },
      },
    }),
    recipes: await tx.shelfEntry.findMany({ ...ofAccount, include: { variant: true } }),
    places: await tx.site.findMany({ ...ofGrower, include: { place: true } }),
    agreements: await tx.agreement.findMany({ ...ofGrower, include: { trial: TRIAL } }),
    turnsInLine: await tx.waitingPlace.findMany({
      where: { householdId },
      include: { trial: TRIAL, region: { select: { code: true, name: true } } },
    }),
    seats: await tx.enrolment.findMany({
      where: { householdId },
      include: { trial: TRIAL, region: { select: { code: true, name: true } } },
    }),
    setsOfBoxes: await tx.outing.findMany({
      ...ofGrower,
      include: {
        trial: TRIAL,
        boxes: {
          orderBy: { position: "asc" },
          include: { allocation: { include: { arm: { select: { code: true, variantId: true } } } } },
        },
        pin: true,
        weather: true,
        helpers: { omit: { tokenHash: true } },
        draw: {
          select: {
            number: true,
            algorithm: true,
            hash: true,
            fetchAfterDays: true,
            drawnAt: true,
            timeSalt: true,
          },
        },
      },
    }),
    correctionsAskedOfMe: await tx.correctionRequest.findMany({
      where: { box: { outing: { growerId } } },
      omit: { askedById: true },
      orderBy: { id: "asc" },
    }),
    correctionsIAsked: await tx.correctionRequest.findMany({
      where: { askedById: growerId },
      orderBy: { id: "asc" },
    }),
    lettersReceived: await tx.mail.findMany({
      where: { accountId, kind: LETTER },
      select: { id: true, subject: true, body: true, createdAt: true, trial: TRIAL },
      orderBy: { id: "asc" },
    }),
    lettersSent: await tx.leadMessage.findMany({ ...ofAccount, orderBy: { id: "asc" } }),
    pauses: await tx.trialPause.findMany({ ...ofGrower, include: { trial: TRIAL } }),
    releases: await tx.trialRelease.findMany({
      ...ofGrower,
      select: { id: true, releasedAt: true, hash: true, trial: TRIAL },
    }),
    amendments: await tx.planAmendment.findMany({ ...ofGrower, include: { trial: TRIAL } }),
    events: await tx.boxEvent.findMany(ofGrower),
    grades: await tx.grade.findMany({ where: { graderId: growerId }, orderBy: { id: "asc" } }),
    freeText: await tx.freeText.findMany({ ...ofAccount, orderBy: { id: "asc" } }),
    pictures: await tx.photo.findMany({ ...ofAccount, orderBy: { id: "asc" } }),
    jars: await tx.jar.findMany({ ...ofGrower, include: { boxes: true } }),
    mails: await tx.mail.findMany({ ...ofAccount, omit: { body: true }, orderBy: { id: "asc" } }),
    receipts: await tx.receipt.findMany({ ...ofAccount, orderBy: { id: "asc" } }),
    auditTrail: await tx.auditEntry.findMany(ofGrower),
  };
}

const TRIAL = { select: { slug: true, title: true } } as const;
