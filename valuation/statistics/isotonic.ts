import { checkNumbers, checkWeights } from './check-input.ts';

/**
 * The non-decreasing sequence nearest to `values` in weighted squares: pool adjacent violators.
 * Values of weight zero do not count and take the fitted value before them (the first, at the beginning).
 *
 * Throws RangeError on empty, mismatched or non-finite input, and on weights that are negative or all zero.
 * Source: Ayer et al. (1955); Busing (2022), Journal of Statistical Software 102, code snippet 1.
 */
export const isotonic = (values: readonly number[], weights?: readonly number[]): number[] => {
  checkNumbers(values, 'values');
  if (weights) checkWeights(weights, values.length, 'weights');
  const blocks: { mean: number; weight: number; end: number }[] = [];
  values.forEach((value, i) => {
    const weight = weights ? weights[i]! : 1;
    if (weight === 0) {
      if (blocks.length > 0) blocks.at(-1)!.end = i;
      return;
    }
    let block = { mean: value, weight, end: i };
    for (let before = blocks.at(-1); before && before.mean > block.mean; before = blocks.at(-1)) {
      const joint = before.weight + block.weight;
      const mean = before.mean + (block.mean - before.mean) * (block.weight / joint);
      block = { mean, weight: joint, end: i };
      blocks.pop();
    }
    blocks.push(block);
  });
  const fitted: number[] = [];
  for (const { mean, end } of blocks) while (fitted.length <= end) fitted.push(mean);
  return fitted;
};
