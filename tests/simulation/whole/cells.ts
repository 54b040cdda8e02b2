import type { SimulatedTrial } from "@/tests/engine/statistics/simulated-trial";

/** One kind of invented trial. */
export interface SimulationCell {
  readonly name: string;
  readonly kind: "null" | "poorer-places" | "effects" | "loss" | "crossover" | "crossover-boundary";
  readonly trial: SimulatedTrial;
}

const SPREADS = [0, 0.3, 0.6];
const LOSSES_DIFFER = 0.6;

/** The whole grid; arms are equal in `null` cells and drawn anew for every trial in `effects` cells. */
export const SIMULATION_CELLS: readonly SimulationCell[] = [
  ...[10, 15, 20, 40, 60].flatMap((growers) => SPREADS.map((sd) => cell("null", growers, sd))),
  ...[20, 40].map((growers) => cell("null", growers, 0.6, { arms: 6 })),
  ...[10, 20, 40, 60].flatMap((growers) => SPREADS.map((sd) => cell("effects", growers, sd))),
  // Arms are equal, and a third of the growers lack the last one and have poorer places.
  ...[20, 40].map((growers) => cell("poorer-places", growers, 0.6)),
  cell("loss", 40, 0.6, { armLossShares: [0.3, 0.1, 0.1, 0.1] }),
  cell("crossover", 60, 0.3, {
    bandArmEffects: { Csb: [1, 0, 0, 0], Cfb: [-1, 0, 0, 0], Csa: [-1, 0, 0, 0] },
  }),
  ...[20, 60].map((growers) =>
    // Where the test is least favoured: one group far on one side, no difference in the others.
    cell("crossover-boundary", growers, 0.3, {
      bandArmEffects: { Csb: [2, 0, 0, 0], Cfb: [0, 0, 0, 0], Csa: [0, 0, 0, 0] },
    }),
  ),
];

function cell(
  kind: SimulationCell["kind"],
  growers: number,
  growerArmSd: number,
  more: Partial<SimulatedTrial> = {},
): SimulationCell {
  const trial = { growers, arms: 4, growerArmSd, growerLossSd: LOSSES_DIFFER, ...more };
  return { name: `${kind} ${growers} growers, SD ${growerArmSd}, ${trial.arms} arms`, kind, trial };
}
