import type { z } from "zod";
import type { Actor, Recorder } from "@/lib/auth/actor";
import { currentRecorder, type RecordSubject } from "@/lib/auth/helper";
import { currentActor } from "@/lib/auth/session";
import { RolledBack, type Transaction, transaction } from "@/lib/data/client";
import { claimReceipt, keepAnswer } from "@/lib/data/receipts";
import { canonicalHash } from "@/lib/engine/random/hash";
import type { Result } from "@/lib/errors/result";
import { log } from "@/lib/log";
import { isSameOrigin, readJsonText } from "./body";
import { type FieldFault, problem } from "./problem";

interface PhoneWrite<Body extends { id: string }, Value, Who extends Recorder> {
  /** Names the route in the receipt, e.g. "grades". */
  readonly route: string;
  /** Its `id` is the write's id: UUIDv7, made by the phone, sent again with every repeat. */
  readonly schema: z.ZodType<Body>;
  readonly service: (
    tx: Transaction,
    who: Who,
    body: Body,
    request: Request,
  ) => Promise<Result<Value, string>>;
  /** What a first answer sets off once it is kept; it can no longer refuse. */
  readonly afterwards?: (value: Value) => Promise<void>;
}

/**
 * A POST handler for what a phone writes. The same id and content again get the first answer; the same id
 * with other content 409; an id of somebody else's write 404. Only what was saved leaves a receipt: a refusal
 * rolls everything back and may be tried again.
 */
export function phoneWrite<Body extends { id: string }, Value>(write: PhoneWrite<Body, Value, Actor>) {
  return handler(write, async () => {
    const actor = await currentActor();
    return actor ? () => actor : "SIGN_IN_FIRST";
  });
}

/** The same for what is recorded of a box or a set, which somebody with a helper link may send in its grower's name. */
export function recordWrite<Body extends { id: string } & RecordSubject, Value>(
  write: PhoneWrite<Body, Value, Recorder>,
) {
  return handler(write, currentRecorder);
}

/** @param whoAsks who sends this request, once its body is known; or why nobody who may */
function handler<Body extends { id: string }, Value, Who extends Recorder>(
  write: PhoneWrite<Body, Value, Who>,
  whoAsks: () => Promise<((body: Body) => Who) | string>,
) {
  return async (request: Request): Promise<Response> => {
    if (!isSameOrigin(request)) return problem("NOT_SAME_ORIGIN");
    const who = await whoAsks();
    if (typeof who === "string") return problem(who);
    const reading = await readJsonText(request);
    if (!reading.ok) return problem(reading.reason);
    const json = parseJson(reading.text);
    if (json === undefined) return problem("NOT_JSON");
    const parsed = write.schema.safeParse(json);
    if (!parsed.success) return problem("INVALID", fieldFaults(parsed.error));
    return answerOnce(write, who(parsed.data), parsed.data, request);
  };
}

/** Runs a parsed write, once for its id and content, and makes its answer. */
export async function answerOnce<Body extends { id: string }, Value, Who extends Recorder>(
  write: Omit<PhoneWrite<Body, Value, Who>, "schema">,
  who: Who,
  body: Body,
  request: Request,
): Promise<Response> {
  try {
    const { response, kept } = await transaction((tx) => answerWithin(tx, write, who, body, request));
    if (kept) await write.afterwards?.(kept.value);
    return response;
  } catch (fault) {
    if (fault instanceof RolledBack) return problem(fault.reason);
    log.error(
      { err: fault, route: write.route, requestId: request.headers.get("x-request-id") },
      "write failed",
    );
    return problem("FAULT");
  }
}

async function answerWithin<Body extends { id: string }, Value, Who extends Recorder>(
  tx: Transaction,
  write: Omit<PhoneWrite<Body, Value, Who>, "schema">,
  who: Who,
  body: Body,
  request: Request,
): Promise<{ readonly response: Response; readonly kept?: { readonly value: Value } }> {
  const receipt = await claimReceipt(tx, {
    id: body.id,
    accountId: who.accountId,
    route: write.route,
    contentSha256: canonicalHash(body),
  });
  if (receipt.kind === "other-account") return { response: problem("NOT_FOUND") };
  if (receipt.kind === "other-content") return { response: problem("ID_USED_FOR_OTHER_CONTENT") };
  if (receipt.kind === "repeat")
    return { response: Response.json(receipt.answer, { status: receipt.status }) };
  const result = await write.service(tx, who, body, request);
  if (!result.ok) throw new RolledBack(result.reason);
  await keepAnswer(tx, body.id, 201, result.value);
  return { response: Response.json(result.value, { status: 201 }), kept: { value: result.value } };
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

export function fieldFaults(error: z.ZodError): FieldFault[] {
  return error.issues.map((issue) => ({ path: issue.path.join("."), code: issue.message }));
}
