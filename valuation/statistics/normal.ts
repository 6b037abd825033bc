import { checkBetween } from './check-input.ts';

/** c[0] xⁿ + … + c[n]. */
const polynomial = (x: number, coefficients: readonly number[]): number => {
  let sum = 0;
  for (let i = 0; i < coefficients.length; i++) sum = sum * x + coefficients[i]!;
  return sum;
};

const centreTop = [
  0.06568233791820745, 2.2352520354606837, 161.02823106855587, 1067.6894854603709, 18154.98125334356,
];
const centreBottom = [1, 47.202581904688245, 976.0985517377767, 10260.932208618979, 45507.78933502673];
const middleTop = [
  1.0765576773720192e-8, 0.39894151208813466, 8.883149794388377, 93.50665613217785, 597.2702763948002,
  2494.5375852903726, 6848.190450536283, 11602.65143764735, 9842.714838383978,
];
const middleBottom = [
  1, 22.266688044328117, 235.387901782625, 1519.3775994075547, 6485.558298266761, 18615.571640885097,
  34900.95272114598, 38912.00328609327, 19685.429676859992,
];
const tailTop = [
  0.023073441764940174, 0.215898534057957, 0.12740116116024736, 0.022235277870649807, 0.0014216191932278934,
  0.000029112874951168793,
];
const tailBottom = [
  1, 1.284260096144911, 0.4682382124808651, 0.06598813786892856, 0.0037823963320275824,
  0.00007297515550839662,
];

/** e^(−c²/2) at the sixteenths c up to 39, beyond which nothing is left of a tail. */
const coarseBells = Float64Array.from({ length: 39 * 16 + 1 }, (_, i) =>
  Math.exp((-(i / 16) * (i / 16)) / 2),
);

/** e^(−x²/2) for x from 0 to 39, with the square split, so that its rounding does not count in the tail. */
const bell = (x: number): number => {
  const sixteenths = Math.trunc(x * 16);
  const coarse = sixteenths / 16;
  return coarseBells[sixteenths]! * Math.exp((-(x - coarse) * (x + coarse)) / 2);
};

/** Φ(−x) for x above 0.67. */
const upperTail = (x: number): number => {
  if (x > 39) return 0;
  if (x <= Math.sqrt(32)) return (bell(x) * polynomial(x, middleTop)) / polynomial(x, middleBottom);
  const inverse = 1 / (x * x);
  const ratio = (inverse * polynomial(inverse, tailTop)) / polynomial(inverse, tailBottom);
  return (bell(x) * (1 / Math.sqrt(2 * Math.PI) - ratio)) / x;
};

/**
 * Standard normal distribution function Φ(z), to about 15 digits relative to the smaller tail; ±Infinity
 * gives 0 and 1.
 * Throws RangeError on NaN.
 * Source: W. J. Cody, Rational Chebyshev approximations for the error function, Mathematics of Computation
 * 23 (1969) 631–637.
 */
export const normalCdf = (z: number): number => {
  if (Number.isNaN(z)) throw new RangeError('z must be a number, not NaN');
  const size = Math.abs(z);
  if (size <= 0.67448975) {
    const square = z * z;
    return 0.5 + (z * polynomial(square, centreTop)) / polynomial(square, centreBottom);
  }
  return z < 0 ? upperTail(size) : 1 - upperTail(size);
};

const nearTop = [
  2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946,
  1971.5909503065513, 133.14166789178438, 3.3871328727963665,
];
const nearBottom = [
  5226.495278852854, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751,
  687.1870074920579, 42.31333070160091, 1,
];
const outerTop = [
  0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684, 3.6478483247632045,
  5.769497221460691, 4.630337846156546, 1.4234371107496835,
];
const outerBottom = [
  1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008, 0.6897673349851,
  1.6763848301838038, 2.053191626637759, 1,
];
const farTop = [
  2.0103343992922881e-7, 0.000027115555687434876, 0.0012426609473880784, 0.026532189526576124,
  0.29656057182850487, 1.7848265399172913, 5.463784911164114, 6.657904643501103,
];
const farBottom = [
  2.0442631033899397e-15, 1.421511758316446e-7, 0.000018463183175100548, 0.0007868691311456133,
  0.014875361290850615, 0.1369298809227358, 0.599832206555888, 1,
];

/** z of an 80 % interval: the normal quantile at 0.9. */
export const eightyPercent = 1.2815515655446004;

/**
 * Standard normal quantile Φ⁻¹(p), to about 15 digits; 0 and 1 give ±Infinity. Throws RangeError outside 0…1.
 * Source: M. J. Wichura, Algorithm AS 241, Applied Statistics 37 (1988) 477–484 (PPND16).
 */
export const normalQuantile = (p: number): number => {
  checkBetween(p, 0, 1, 'p');
  const offset = p - 0.5;
  if (Math.abs(offset) <= 0.425) {
    const r = 0.180625 - offset * offset;
    return (offset * polynomial(r, nearTop)) / polynomial(r, nearBottom);
  }
  const tail = Math.min(p, 1 - p);
  if (tail === 0) return offset < 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  const r = Math.sqrt(-Math.log(tail));
  const size =
    r <= 5
      ? polynomial(r - 1.6, outerTop) / polynomial(r - 1.6, outerBottom)
      : polynomial(r - 5, farTop) / polynomial(r - 5, farBottom);
  return offset < 0 ? -size : size;
};
