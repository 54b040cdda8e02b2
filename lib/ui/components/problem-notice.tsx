import { fieldWords } from "@/lib/ui/messages/en/fields";
import type { SentProblem } from "@/lib/ui/send";
import { Notice } from "./notice";

/** What is wrong with what was sent and what to do; answers at fault are named in words. */
export function ProblemNotice({ problem }: { problem: SentProblem | null }) {
  if (!problem) return null;
  const faults = [...new Set(problem.fields.map(({ code }) => fieldWords(code)))];
  return (
    <Notice kind="due">
      <p>{problem.title}</p>
      <p className="font-normal">{problem.detail}</p>
      {faults.length > 0 ? (
        <ul className="mt-1 list-disc pl-5 font-normal">
          {faults.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      ) : null}
    </Notice>
  );
}
