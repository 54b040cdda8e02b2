import Link from "next/link";
import type { TrialView } from "@/lib/services/read-trials";
import { BoxCautions } from "@/lib/ui/components/cautions";
import { seasonMessages } from "@/lib/ui/messages/en/season";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";

/** The trial's other seasons, where to go on from a closed one, and what to mind before cooking. */
export function NextTime({ trial: { status, follows, followedBy } }: { trial: TrialView }) {
  return (
    <section className="mb-8 max-w-[44em]">
      {follows ? (
        <p className="mb-2">
          {seasonMessages.follows} <TrialLink {...follows} />
        </p>
      ) : null}
      {status === "closed" ? (
        <>
          <h2 className="mb-1">{words.nextTime}</h2>
          {followedBy.map((later) => (
            <p key={later.slug}>
              {seasonMessages.followedBy} <TrialLink {...later} />
            </p>
          ))}
          {followedBy.length === 0 ? <p>{words.nextTimeNone}</p> : null}
          <p className="mb-4">
            <Link href="/trials" className="inline-flex min-h-11 items-center">
              {words.openTrials}
            </Link>
          </p>
        </>
      ) : null}
      <BoxCautions />
    </section>
  );
}

function TrialLink({ slug, title }: { slug: string; title: string }) {
  return (
    <Link href={`/trials/${slug}`} className="inline-flex min-h-11 items-center">
      {title}
    </Link>
  );
}
