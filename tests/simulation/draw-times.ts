import { createHash } from "node:crypto";
import { designOf } from "@/lib/engine/design/draw";
import { EarlierDraws } from "@/lib/engine/design/history";
import { appendDraw, sealOf } from "@/lib/engine/design/ledger";
import { planHash } from "@/lib/engine/design/plan";
import { verifyLedger } from "@/lib/engine/design/verify-ledger";
import type { DrawInputs, LedgerEntry } from "@/shared/schemas/draw";
import { storedPlanSchema } from "@/shared/schemas/plan";

const DRAWS = 10_000;
/** The last so many draws are measured. */
const MEASURED = 1000;
const SECRET_HEX = "5a".repeat(32);
const trialId = "018f3a5e-0000-7000-8000-00000000000a";

/** Processor time of this process so far: other processes don't lengthen it. */
function workMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/** For 12 arms × 3 boxes and 24 arms × 12 boxes: work of a draw after 9,000, and of verifying 10,000. */
export function drawTimes(): string[] {
  return [
    [12, 3],
    [24, 12],
  ].map(([arms, boxes]) => {
    const plan = inventedPlan(arms!, boxes!);
    const trial = { trialId, planHash: planHash(plan), seal: sealOf(SECRET_HEX) };
    const earlier = new EarlierDraws(plan.arms.map(({ code }) => code));
    const entries: LedgerEntry[] = [];
    let workBefore = 0;
    let slowest = 0;
    for (let number = 1; number <= DRAWS; number++) {
      if (number === DRAWS - MEASURED + 1) workBefore = workMs();
      const inputs = inputsOf(plan, earlier, number, boxes!);
      const from = performance.now();
      const history = earlier.of(inputs);
      const drawn = appendDraw(trial, designOf(plan), entries.at(-1) ?? null, SECRET_HEX, inputs, history);
      if (number > DRAWS - MEASURED) slowest = Math.max(slowest, performance.now() - from);
      if (!drawn.ok) throw new Error(drawn.reason);
      entries.push(drawn.entry);
      earlier.add(drawn.entry);
    }
    const aDraw = (workMs() - workBefore) / MEASURED;
    const workBeforeVerifying = workMs();
    const verdict = verifyLedger({ ...trial, plan, entries, secretHex: SECRET_HEX });
    if (!verdict.ok) throw new Error(verdict.problem);
    const verifying = (workMs() - workBeforeVerifying) / 1000;
    return `${arms} arms × ${boxes} boxes: ${aDraw.toFixed(2)} ms of work a draw, slowest ${slowest.toFixed(0)} ms by the clock; verified with ${verifying.toFixed(1)} s of work`;
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
