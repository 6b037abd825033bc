/** A fraction of whole numbers, for checks against arithmetic without rounding. */
export interface Fraction {
  top: bigint;
  bottom: bigint;
}

const float = new DataView(new ArrayBuffer(8));

/** The number exactly as it is stored. */
export const exact = (x: number): Fraction => {
  float.setFloat64(0, x);
  const bits = float.getBigUint64(0);
  const exponent = Number((bits >> 52n) & 0x7ffn);
  const fraction = bits & 0xfffffffffffffn;
  const size = exponent === 0 ? fraction : fraction | 0x10000000000000n;
  const top = bits >> 63n ? -size : size;
  const power = Math.max(exponent, 1) - 1075;
  return power < 0 ? { top, bottom: 1n << BigInt(-power) } : { top: top << BigInt(power), bottom: 1n };
};

export const plus = (a: Fraction, b: Fraction): Fraction =>
  a.bottom === b.bottom
    ? { top: a.top + b.top, bottom: a.bottom }
    : { top: a.top * b.bottom + b.top * a.bottom, bottom: a.bottom * b.bottom };

export const minus = (a: Fraction, b: Fraction): Fraction => plus(a, { top: -b.top, bottom: b.bottom });

export const times = (a: Fraction, b: Fraction): Fraction => ({
  top: a.top * b.top,
  bottom: a.bottom * b.bottom,
});

export const over = (a: Fraction, b: Fraction): Fraction =>
  b.top < 0n
    ? { top: -a.top * b.bottom, bottom: -a.bottom * b.top }
    : { top: a.top * b.bottom, bottom: a.bottom * b.top };

const bitsOf = (n: bigint): number => n.toString(16).length * 4;

/** The nearest number, to 60 bits and the rounding of a double. */
export const rounded = ({ top, bottom }: Fraction): number => {
  const size = top < 0n ? -top : top;
  if (size === 0n) return 0;
  const shift = 64 - (bitsOf(size) - bitsOf(bottom));
  const quotient = shift > 0 ? (size << BigInt(shift)) / bottom : size / (bottom << BigInt(-shift));
  return Number(quotient) * 2 ** -shift * (top < 0n ? -1 : 1);
};

export const sum = (terms: readonly Fraction[]): Fraction => terms.reduce(plus, { top: 0n, bottom: 1n });
