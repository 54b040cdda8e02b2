import { createHash } from "node:crypto";
import { designOf } from "@/lib/engine/design/draw";
import { EarlierDraws } from "@/lib/engine/design/history";
import { appendDraw, sealOf } from "@/lib/engine/design/ledger";
import { planHash } from "@/lib/engine/design/plan";
import { verifyLedger } from "@/lib/engine/design/verify-ledger";
import type { DrawInputs, LedgerEntry } from "@/shared/schemas/draw";
import { storedPlanSchema } from "@/shared/schemas/plan";

const DRAWS = 10_000;
const SECRET_HEX = "5a".repeat(32);
const trialId = "018f3a5e-0000-7000-8000-00000000000a";

/** For 12 arms × 3 boxes and 24 arms × 12 boxes: milliseconds a draw near draw 10,000, and seconds to verify all. */
export function drawTimes(): string[] {
  return [
    [12, 3],
    [24, 12],
  ].map(([arms, boxes]) => {
    const plan = inventedPlan(arms!, boxes!);
    const trial = { trialId, planHash: planHash(plan), seal: sealOf(SECRET_HEX) };
    const earlier = new EarlierDraws(plan.arms.map(({ code }) => code));
    const entries: LedgerEntry[] = [];
    const took: number[] = [];
    for (let number = 1; number <= DRAWS; number++) {
      const inputs = inputsOf(plan, earlier, number, boxes!);
      const from = performance.now();
      const drawn = appendDraw(
        trial,
        designOf(plan),
        entries.at(-1) ?? null,
        SECRET_HEX,
        inputs,
        earlier.of(inputs),
      );
      took.push(performance.now() - from);
      if (!drawn.ok) throw new Error(drawn.reason);
      entries.push(drawn.entry);
      earlier.add(drawn.entry);
    }
    const last = took.slice(-1000).sort((a, b) => a - b);
    const from = performance.now();
    const verdict = verifyLedger({ ...trial, plan, entries, secretHex: SECRET_HEX });
    if (!verdict.ok) throw new Error(verdict.problem);
    const seconds = (performance.now() - from) / 1000;
    return `${arms} arms × ${boxes} boxes: median ${last[500]!.toFixed(2)} ms, 99 % under ${last[989]!.toFixed(1)} ms; verified in ${seconds.toFixed(1)} s`;
  });
}

function inventedPlan(arms: number, boxes: number) {
  return storedPlanSchema.parse({
    question: "An invented question",
    primaryOutcome: "growth",
    minimum: { boxesPerCell: 5, growersPerCell: 3 },
    endsOn: "2027-06-30",
    climateGrouping: [{ code: "warm", classes: ["Csa"] }],
    boxesPerSet: { min: 2, max: boxes },
    arms: Array.from({ length: arms }, (_, i) => ({
      code: `arm-${i + 1}`,
      grain: `grain-${Math.floor(i / 2)}`,
      variantHash: createHash("sha256").update(`${i}`).digest("hex"),
    })),
    rubricVersion: "1",
    earlyCloseRule: "none",
    lossHandling: "as-drawn",
  });
}

function inputsOf(
  plan: ReturnType<typeof inventedPlan>,
  earlier: EarlierDraws,
  number: number,
  boxes: number,
): DrawInputs {
  const climateGroup = `c${number % 5}`;
  const before = earlier.drawnBefore(climateGroup);
  return {
    outingId: `018f3a5e-0000-7000-8000-${number.toString(16).padStart(12, "0")}`,
    household: `h-${number % 2500}`,
    climateGroup,
    region: `r${number % 3}`,
    boxes,
    grainsAtHand: [...new Set(plan.arms.map(({ grain }) => grain))],
    arms: plan.arms.map(({ code, grain }) => ({ code, grain, drawnBefore: before.get(code) ?? 0 })),
    timeHash: "0".repeat(64),
  };
}
