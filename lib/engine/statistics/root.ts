const MAX_STEPS = 300;

/**
 * The x between `low` and `high` where an increasing function is 0, within `tolerance` · |x|, by the Illinois variant
 * of false position (Dowell & Jarratt 1971, BIT 11:168–174). The nearer end where the root lies outside. Throws when
 * the function is not a number somewhere.
 */
export function increasingRoot(
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance = 1e-13,
): number {
  let [a, b] = [low, high];
  let [fa, fb] = [f(a), f(b)];
  if (fa >= 0) return a;
  if (fb <= 0) return b;
  let [x, lastSide] = [Number.NaN, 0];
  for (let step = 0; step < MAX_STEPS; step++) {
    const next = (a * fb - b * fa) / (fb - fa);
    if (Math.abs(next - x) <= tolerance * Math.abs(next)) return next;
    x = next > a && next < b ? next : (a + b) / 2;
    const fx = f(x);
    if (Number.isNaN(fx)) throw new RangeError(`The function has no value at ${x}.`);
    if (fx === 0 || x === a || x === b) return x;
    const side = Math.sign(fx);
    // An end that stays twice running has its value halved, so that it moves next.
    if (side < 0) {
      [a, fa] = [x, fx];
      if (lastSide < 0) fb /= 2;
    } else {
      [b, fb] = [x, fx];
      if (lastSide > 0) fa /= 2;
    }
    lastSide = side;
  }
  return (a + b) / 2;
}
