export const DOTS = 20;

/**
 * Twenty dots dealt out by chances that add up to 1, by largest remainders (Hamilton's rule): every recipe gets its
 * whole dots, and those left over go to the largest remainders, ties to the larger chance.
 */
export function twentyDots(chances: readonly number[]): number[] {
  const total = chances.reduce((sum, chance) => sum + chance, 0);
  if (!(total > 0)) return chances.map(() => 0);
  const shares = chances.map((chance) => (chance / total) * DOTS);
  const dots = shares.map(Math.floor);
  const left = DOTS - dots.reduce((sum, own) => sum + own, 0);
  const byRemainder = shares
    .map((share, place) => ({ place, remainder: share - Math.floor(share), share }))
    .sort((a, b) => b.remainder - a.remainder || b.share - a.share);
  for (const { place } of byRemainder.slice(0, left)) dots[place]!++;
  return dots;
}
