import { z } from "zod";
import { uuidV7 } from "./id";
import { keepableText } from "./text";

/** The wording of cautions and sharing that a grower agrees to now. A changed wording gets a new version. */
export const AGREEMENT_VERSION = "2026-12";

/** Joining a trial, as a phone sends it. Every message is a key of the message catalogue. */
export const enrolmentSchema = z.strictObject(
  {
    id: uuidV7,
    joinCode: keepableText("enrolment.joinCode.text").trim().min(1).max(60),
    regionId: z.uuid({ error: "enrolment.region.choice" }),
    agreementVersion: z.literal(AGREEMENT_VERSION, { error: "enrolment.agreement.read" }),
    /** Whether to stand in line where no seat is free. */
    mayWait: z.boolean().optional(),
  },
  { error: "enrolment.fields" },
);

export type EnrolmentInput = Readonly<z.infer<typeof enrolmentSchema>>;
