import type { MyThings } from "@/lib/services/growing/my-things";
import { ButtonLink } from "@/lib/ui/components/button";
import { myThingsMessages as words } from "@/lib/ui/messages/en/my-things";
import { RecordStands } from "./record-stands";

/** What leads ask to have looked at again: to the box's record, or the answer that it stands. */
export function Requests({ requests }: Pick<MyThings, "requests">) {
  if (requests.length === 0) return null;
  return (
    <section className="mb-9 max-w-[44em]">
      <h2 className="mb-1">{words.requestsTitle}</h2>
      <p className="mb-3 text-quiet">{words.requestsLead}</p>
      <ul>
        {requests.map((request) => (
          <li key={request.id} className="mb-3 rounded-[5px] border-2 border-due p-3.5">
            <h3>
              {words.requestOf(request.boxCode)}
              <span className="font-normal text-quiet"> · {request.trialTitle}</span>
            </h3>
            <p>{words.requestKinds[request.kind]}</p>
            {request.words ? (
              <p className="whitespace-pre-line" dir="auto">
                {words.requestWords(request.words)}
              </p>
            ) : null}
            <div className="mt-3 flex flex-wrap items-start gap-3">
              <ButtonLink href={`/outings/${request.outingId}/boxes/${request.position}/grade`}>
                {words.lookAgain}
              </ButtonLink>
              <RecordStands requestId={request.id} />
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}
