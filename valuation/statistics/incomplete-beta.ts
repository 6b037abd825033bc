/** ln Γ(x) for x > 0: Stirling's series after shifting x beyond 15 (Abramowitz & Stegun 6.1.15, 6.1.40). */
const logGamma = (x: number): number => {
  let shifted = x;
  let product = 1;
  for (; shifted < 15; shifted++) product *= shifted;
  const square = 1 / (shifted * shifted);
  const series =
    (1 / 12 - square * (1 / 360 - square * (1 / 1260 - square * (1 / 1680 - square / 1188)))) / shifted;
  return (
    (shifted - 0.5) * Math.log(shifted) - shifted + Math.log(2 * Math.PI) / 2 + series - Math.log(product)
  );
};

/**
 * Continued fraction of the incomplete beta function, by Lentz's method; quick for x < (a + 1)/(a + b + 2).
 */
const continuedFraction = (x: number, a: number, b: number): number => {
  const tiny = 1e-300;
  const away = (value: number) => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m <= 1000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return fraction;
};

/** ln B(a, b) of the beta function. */
const logBetaOf = (a: number, b: number): number => logGamma(a) + logGamma(b) - logGamma(a + b);

/**
 * Regularised incomplete beta function I_x(a, b) for a, b > 0 and x in 0…1: the distribution function of
 * a beta variable.
 * Source: NIST Digital Library of Mathematical Functions 8.17.22 and 8.17.4.
 */
export const incompleteBeta = (x: number, a: number, b: number, logBeta = logBetaOf(a, b)): number => {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) - logBeta);
  return x < (a + 1) / (a + b + 2)
    ? (front * continuedFraction(x, a, b)) / a
    : 1 - (front * continuedFraction(1 - x, b, a)) / b;
};

/** The x at which I_x(a, b) = p: Newton's steps kept inside a bracket that halves whenever they leave it. */
export const inverseIncompleteBeta = (p: number, a: number, b: number): number => {
  if (p <= 0) return 0;
  if (p >= 1) return 1;
  // The upper half by its mirror image: near 1 the distance from 1 keeps more digits.
  if (p > 0.5) return 1 - inverseIncompleteBeta(1 - p, b, a);
  const logBeta = logBetaOf(a, b);
  let low = 0;
  let high = 1;
  let x = a / (a + b);
  for (let round = 0; round < 200; round++) {
    const miss = incompleteBeta(x, a, b, logBeta) - p;
    if (miss === 0) return x;
    if (miss > 0) high = x;
    else low = x;
    const density = Math.exp((a - 1) * Math.log(x) + (b - 1) * Math.log1p(-x) - logBeta);
    const newton = x - miss / density;
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - x) <= 2 ** -53 * x || next === low || next === high) return next;
    x = next;
  }
  return x;
};
