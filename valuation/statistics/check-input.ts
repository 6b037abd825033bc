/** Throws RangeError, naming the argument, unless `value` is a finite number. */
export const checkFinite = (value: number, name: string): void => {
  if (typeof value !== 'number' || !Number.isFinite(value))
    throw new RangeError(`${name} must be a finite number, not ${String(value)}`);
};

/**
 * Throws RangeError, naming the argument and the place, unless `values` is a non-empty list
 * of finite numbers.
 */
export const checkNumbers = (values: readonly number[], name: string): void => {
  if (!Array.isArray(values)) throw new RangeError(`${name} must be a list of numbers`);
  if (values.length === 0) throw new RangeError(`${name} must not be empty`);
  for (let i = 0; i < values.length; i++) {
    if (!Number.isFinite(values[i]))
      throw new RangeError(`${name}[${i}] must be a finite number, not ${values[i]}`);
  }
};

/**
 * Throws RangeError unless `weights` are finite, none negative, as many as `count`, and at
 * least one above zero.
 */
export const checkWeights = (weights: readonly number[], count: number, name: string): void => {
  checkNumbers(weights, name);
  if (weights.length !== count)
    throw new RangeError(`${name} has ${weights.length} entries where ${count} are needed`);
  const negative = weights.findIndex(weight => weight < 0);
  if (negative >= 0)
    throw new RangeError(`${name}[${negative}] must not be negative, and is ${weights[negative]}`);
  if (weights.every(weight => weight === 0)) throw new RangeError(`${name} must not all be zero`);
};

/** Throws RangeError unless `value` lies between `low` and `high`, both included. */
export const checkBetween = (value: number, low: number, high: number, name: string): void => {
  checkFinite(value, name);
  if (value < low || value > high)
    throw new RangeError(`${name} must lie between ${low} and ${high}, not at ${value}`);
};
