import type { FittedMarket } from '../market/fitted-market.ts';

/**
 * A result that follows from the market alone: worked out at its first use, and held as long as
 * the market itself.
 */
export const onceOn = <Value>(make: (fitted: FittedMarket) => Value): ((fitted: FittedMarket) => Value) => {
  const made = new WeakMap<FittedMarket, { value: Value }>();
  return fitted => {
    let found = made.get(fitted);
    if (!found) {
      found = { value: make(fitted) };
      made.set(fitted, found);
    }
    return found.value;
  };
};

/**
 * Results that follow from the market and a key: each is worked out at its first use and held as long as the
 * market itself. At most `most` of them are held; beyond that the one made first goes.
 */
export const cachedOn = <Key extends number | string, Value extends object>(
  most: number,
): ((fitted: FittedMarket, key: Key, make: () => Value) => Value) => {
  const of = onceOn(() => new Map<Key, Value>());
  return (fitted, key, make) => {
    const held = of(fitted);
    const found = held.get(key);
    if (found) return found;
    const value = make();
    if (held.size >= most) held.delete(held.keys().next().value!);
    held.set(key, value);
    return value;
  };
};
