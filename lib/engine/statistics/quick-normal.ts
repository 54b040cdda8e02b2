/** Nearer to 0 or 1 than this the end is taken: it moves none of a few hundred thousand numbers. */
const END = 1e-10;
/** Distance from 1/2 up to which the centre's formula holds. */
const CENTRE = 0.425;

/** Coefficients, from the constant up. */
const CENTRE_NUMERATOR = [
  3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987,
  67265.7709270087, 33430.57558358813, 2509.0809287301227,
];
const CENTRE_DENOMINATOR = [
  1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271,
  28729.085735721943, 5226.495278852854,
];
const TAIL_NUMERATOR = [
  1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
  0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
];
const TAIL_DENOMINATOR = [
  1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
  0.0005475938084995345, 1.0507500716444169e-9,
];

/**
 * The standard normal's quantile for the points of an integral, several times quicker than `normalQuantile`: within
 * 1e-15, relative above 1, for 1e-10 ≤ p ≤ 1 − 1e-10, and nearer to 0 or 1 what it is there (±6.36). Wichura's
 * rational approximations (1988, Applied Statistics 37:477–484, algorithm AS 241, PPND16), without the one for
 * farther tails.
 */
export function quickNormalQuantile(p: number): number {
  const q = p - 0.5;
  if (Math.abs(q) <= CENTRE) {
    const r = CENTRE * CENTRE - q * q;
    return (q * polynomial(CENTRE_NUMERATOR, r)) / polynomial(CENTRE_DENOMINATOR, r);
  }
  const r = Math.sqrt(-Math.log(Math.max(END, q < 0 ? p : 1 - p))) - 1.6;
  const distance = polynomial(TAIL_NUMERATOR, r) / polynomial(TAIL_DENOMINATOR, r);
  return q < 0 ? -distance : distance;
}

function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * x + coefficients[i]!;
  return sum;
}
