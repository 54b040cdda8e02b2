import { fieldWords } from "@/lib/ui/messages/en/fields";
import { problemMessages } from "@/lib/ui/messages/en/problems";

/** Which HTTP status a refusal's reason answers with; any reason not named here is a 422. */
const STATUS: Readonly<Record<string, number>> = {
  SIGN_IN_FIRST: 401,
  HELPER_LINK_ENDED: 401,
  NOT_SAME_ORIGIN: 403,
  NOT_FOUND: 404,
  SEND_JSON: 415,
  NOT_JSON: 400,
  TOO_LARGE: 413,
  PICTURE_TOO_LARGE: 413,
  NOT_A_PICTURE: 415,
  PICTURE_IS_HEIC: 415,
  TOO_MANY_PICTURES: 409,
  BOX_NOT_RECORDED: 409,
  INVALID: 422,
  ID_USED_FOR_OTHER_CONTENT: 409,
  TRIAL_NOT_OPEN: 409,
  TRIAL_ENDED: 409,
  TRIAL_PAUSED: 409,
  LEDGER_SEALED: 409,
  RESULTS_HIDDEN: 409,
  RESULTS_ON_THEIR_WAY: 409,
  REGION_FULL: 409,
  ALREADY_JOINED: 409,
  ALREADY_WAITING: 409,
  ALREADY_DRAWN: 409,
  TOO_MANY_NOT_SET_OUT: 409,
  ALREADY_SET_OUT: 409,
  NOT_SET_OUT_YET: 409,
  NO_DAY_TO_COME: 409,
  STAGE_ON_RECORD: 409,
  RECORDS_BEGUN: 409,
  ALREADY_ABANDONED: 409,
  ALREADY_WITHDRAWN: 409,
  OUTING_ABANDONED: 409,
  NOT_DRAWN_YET: 409,
  RECORDED_BY_GROWER: 409,
  PLACE_HAS_SETS: 409,
  CHANGED_MEANWHILE: 412,
  SAY_WHICH_VERSION: 428,
  TOO_MANY_REQUESTS: 429,
  FAULT: 500,
};

/** One field at fault: a path into the body and a message key of the catalogue. */
export interface FieldFault {
  readonly path: string;
  readonly code: string;
}

/**
 * An RFC 9457 problem answer. `reason` is the stable code for programs; title and detail come from the message
 * catalogue.
 */
export function problem(reason: string, fields: readonly FieldFault[] = []): Response {
  const status = STATUS[reason] ?? 422;
  const words = problemMessages[reason as keyof typeof problemMessages] ?? problemMessages.REFUSED;
  const faults = fields.map((field) => ({ ...field, words: fieldWords(field.code) }));
  const body = {
    type: "about:blank",
    title: words.title,
    status,
    detail: words.detail,
    reason,
    fields: faults,
  };
  return new Response(JSON.stringify(body), {
    status,
    headers: { "content-type": "application/problem+json", "cache-control": "no-store" },
  });
}
