/** A chance or share in whole per cents; what rounds to none or all without being it says so. */
export function percent(share: number): string {
  if (share > 0 && share < 0.005) return "<1 %";
  if (share < 1 && share >= 0.995) return ">99 %";
  return `${Math.round(share * 100)} %`;
}

/** A chance with its Monte Carlo error in points. */
export function simulatedPercent(chance: {
  readonly power: number;
  readonly monteCarloError: number;
}): string {
  return `${percent(chance.power)} ± ${(chance.monteCarloError * 100).toFixed(1)}`;
}
