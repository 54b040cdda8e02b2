/** An expected outcome that isn't success: a code for programs; its words stand in the message catalogue. */
export interface Refusal<Reason extends string = string> {
  readonly ok: false;
  readonly reason: Reason;
}

export interface Success<Value> {
  readonly ok: true;
  readonly value: Value;
}

export type Result<Value, Reason extends string> = Success<Value> | Refusal<Reason>;

export function done<Value>(value: Value): Success<Value> {
  return { ok: true, value };
}

export function refuse<Reason extends string>(reason: Reason): Refusal<Reason> {
  return { ok: false, reason };
}
