import type { PhotoInput } from "@/shared/schemas/photo";

/** A problem answer (RFC 9457) as `lib/http/problem.ts` makes it. */
export interface SentProblem {
  /** Stable code for programs. `NO_SIGNAL`: nothing came back, so it may or may not have been saved. */
  readonly reason: string;
  readonly title: string;
  readonly detail: string;
  readonly fields: readonly { readonly path: string; readonly code: string; readonly words: string }[];
}

export type Sent<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly problem: SentProblem };

type Words = Pick<SentProblem, "title" | "detail">;

const TRIES = 3;
const FIRST_WAIT_MS = 600;

/**
 * Sends one write. When nothing comes back, or the server is at fault, the same body goes again, so that its id
 * decides: whatever was saved the first time is answered again and never doubled. Callers keep the body, id
 * included, until an answer comes, and send it again unchanged.
 * @param noSignal words for when nothing came back after the last try
 */
export function sendWrite<Value>(
  path: string,
  body: { readonly id: string },
  noSignal: Words,
): Promise<Sent<Value>> {
  return sendUntilAnswered(path, "application/json", JSON.stringify(body), noSignal);
}

/** Sends one picture, in the same way. */
export function sendPicture<Value>(about: PhotoInput, file: Blob, noSignal: Words): Promise<Sent<Value>> {
  const { takenAt, ...rest } = about;
  const query = new URLSearchParams(takenAt === null ? rest : { ...rest, takenAt });
  return sendUntilAnswered(`/api/v1/photos?${query}`, file.type, file, noSignal);
}

async function sendUntilAnswered<Value>(
  path: string,
  type: string,
  body: BodyInit,
  noSignal: Words,
): Promise<Sent<Value>> {
  for (let tries = 1; ; tries++) {
    const answer = await post<Value>(path, type, body);
    if (answer && (answer.ok || answer.problem.reason !== "FAULT")) return answer;
    if (tries === TRIES)
      return answer ?? { ok: false, problem: { reason: "NO_SIGNAL", fields: [], ...noSignal } };
    await new Promise((resolve) => setTimeout(resolve, FIRST_WAIT_MS * tries));
  }
}

/** One try; null when nothing usable came back. */
async function post<Value>(path: string, type: string, body: BodyInit): Promise<Sent<Value> | null> {
  try {
    const response = await fetch(path, { method: "POST", headers: { "content-type": type }, body });
    const answer = await response.json();
    return response.ok ? { ok: true, value: answer as Value } : { ok: false, problem: answer as SentProblem };
  } catch {
    return null;
  }
}
