import { Caution } from "@/lib/ui/components/caution";
import { growthMessages } from "@/lib/ui/messages/en/growth";
import { recordingMessages } from "@/lib/ui/messages/en/recording";
import { WARMTH } from "@/shared/vocabulary/growth";
import { MeasureChoice, type StepProps } from "./measure-choice";

const words = recordingMessages.record;

export function BeforeStep() {
  return (
    <Caution>
      {words.caution.map((text) => (
        <p key={text}>{text}</p>
      ))}
    </Caution>
  );
}

export function WarmthStep(step: StepProps) {
  return (
    <>
      <p className="mb-3 text-quiet">{words.warmthHint}</p>
      <MeasureChoice {...step} name="warmth" list={WARMTH} names={growthMessages.warmth} />
    </>
  );
}
