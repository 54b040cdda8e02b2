/**
 * One outing's part of the conditional log-likelihood of an arm model: given that m of its n boxes had the event,
 * which ones? `log` is ln P, `score` its gradient and `information` minus its Hessian, by the outing's own arms in
 * the order of `arms`.
 */
export interface ConditionalTerm {
  readonly arms: readonly number[];
  readonly log: number;
  readonly score: readonly number[];
  readonly information: readonly (readonly number[])[];
}

/**
 * P = Π_{events} θ / e_m(θ), θ = exp(β_arm) per box, e_m the elementary symmetric polynomial. With the probability
 * π_i = θ_i e_{m−1}(without i)/e_m that box i is among the m, and π_ij likewise for pairs, the score is events − Σπ
 * per arm and the information Σ(π_ij − π_iπ_j) (Gail, Lubin & Rubinstein 1981, Biometrika 68:703–707).
 *
 * Arms and events are given per box. Cost grows as n³m. An outing where none or all have the event says nothing.
 */
export function conditionalTerm(
  armOfBox: readonly number[],
  event: readonly number[],
  beta: readonly number[],
): ConditionalTerm {
  const n = armOfBox.length;
  const m = event.reduce((sum, x) => sum + x, 0);
  const arms = [...new Set(armOfBox)].sort((a, b) => a - b);
  const place = armOfBox.map((arm) => arms.indexOf(arm));
  // Only differences of β matter; the outing's largest is taken out so that no power overflows.
  const top = Math.max(...arms.map((arm) => beta[arm]!));
  const theta = armOfBox.map((arm) => Math.exp(beta[arm]! - top));
  const all = symmetricPolynomials(theta, m, []);
  const pi = theta.map((x, i) =>
    m === 0 ? 0 : (x * symmetricPolynomials(theta, m - 1, [i])[m - 1]!) / all[m]!,
  );
  const score = arms.map(() => 0);
  const information = arms.map(() => arms.map(() => 0));
  let log = -Math.log(all[m]!);
  for (let i = 0; i < n; i++) {
    log += event[i]! * Math.log(theta[i]!);
    score[place[i]!]! += event[i]! - pi[i]!;
    information[place[i]!]![place[i]!]! += pi[i]! * (1 - pi[i]!);
    for (let j = 0; j < i; j++) {
      const both =
        m < 2 ? 0 : (theta[i]! * theta[j]! * symmetricPolynomials(theta, m - 2, [i, j])[m - 2]!) / all[m]!;
      const covariance = both - pi[i]! * pi[j]!;
      information[place[i]!]![place[j]!]! += covariance;
      information[place[j]!]![place[i]!]! += covariance;
    }
  }
  return { arms, log, score, information };
}

/** e_0 … e_degree of the values but those at the places left out. */
function symmetricPolynomials(
  values: readonly number[],
  degree: number,
  leftOut: readonly number[],
): Float64Array {
  const e = new Float64Array(degree + 1);
  e[0] = 1;
  values.forEach((x, i) => {
    if (leftOut.includes(i)) return;
    for (let k = degree; k >= 1; k--) e[k]! += x * e[k - 1]!;
  });
  return e;
}
