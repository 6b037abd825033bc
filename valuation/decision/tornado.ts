import type { TornadoBar, TornadoInput } from '../types.ts';
import { worthWithMid } from './break-even.ts';
import type { ConsideredOption } from './decision-options.ts';
import { costWithMid } from './plan-cost.ts';
import { type Floors, recommend, scoreOption } from './recommend-car.ts';
import { expectedGain } from './weigh-option.ts';

type Change = (option: ConsideredOption) => ConsideredOption;

/** The expected gain with one worth known to be exactly `mid`. */
const certain = (option: ConsideredOption, which: 'found' | 'after', mid: number): number =>
  expectedGain({
    ...option,
    [which]: { ...worthWithMid(option[which], Math.max(1, mid)), logSd: 0, sharedSd: 0 },
  });

/**
 * Tornado of an option: for each input the expected gain over leaving with that input at its low and at its
 * high, the others as they are; a bar flips where the recommendation at either end is another than it is.
 * Worths and costs go over their 80 % intervals, the chance of spoiling from none to double, selling costs by
 * half down and up. Widest first.
 */
export const tornado = (
  option: ConsideredOption,
  all: readonly ConsideredOption[],
  floors: Floors,
): TornadoBar[] => {
  const unchanged = all.map(other => scoreOption(other, floors));
  const recommendedWith = (change: Change, everywhere: boolean) =>
    recommend(
      all.map((other, i) =>
        everywhere || other === option ? scoreOption(change(other), floors) : unchanged[i]!,
      ),
    ).recommended.option;
  const asItIs = recommend(unchanged).recommended.option;
  const bars: TornadoBar[] = [];
  const bar = (
    input: TornadoInput,
    [low, high]: readonly [number, number],
    changes: [Change, Change],
    everywhere = false,
  ) =>
    bars.push({
      input,
      low: Math.round(low),
      high: Math.round(high),
      flips: changes.some(change => recommendedWith(change, everywhere) !== asItIs),
    });
  const { after, found, cost, spoilChance, fees } = option;
  const setAfter =
    (mid: number): Change =>
    o => ({ ...o, after: worthWithMid(o.after, Math.max(1, mid)) });
  const setFound =
    (mid: number): Change =>
    o => ({ ...o, found: worthWithMid(o.found, Math.max(1, mid)) });
  bar(
    'worth-afterwards',
    [certain(option, 'after', after.low), certain(option, 'after', after.high)],
    [setAfter(after.low), setAfter(after.high)],
  );
  bar(
    'worth-as-found',
    [certain(option, 'found', found.low), certain(option, 'found', found.high)],
    [setFound(found.low), setFound(found.high)],
    true,
  );
  const setCost =
    (mid: number): Change =>
    o => ({ ...o, cost: costWithMid(o.cost, mid) });
  const costAt = (value: number) => expectedGain(option) + cost.mean - value;
  bar(
    'cost',
    [costAt(cost.range.low), costAt(cost.range.high)],
    [setCost(cost.range.low), setCost(cost.range.high)],
  );
  const setSpoil =
    (chance: number): Change =>
    o => ({ ...o, spoilChance: chance });
  const double = Math.min(1, spoilChance * 2);
  if (spoilChance > 0)
    bar(
      'spoil-chance',
      [expectedGain(setSpoil(0)(option)), expectedGain(setSpoil(double)(option))],
      [setSpoil(0), setSpoil(double)],
    );
  const setFees =
    (share: number): Change =>
    o => ({ ...o, fees: share });
  const more = Math.min(1, fees * 1.5);
  if (fees > 0)
    bar(
      'selling-costs',
      [expectedGain(setFees(fees / 2)(option)), expectedGain(setFees(more)(option))],
      [setFees(fees / 2), setFees(more)],
      true,
    );
  return bars.sort((a, b) => Math.abs(b.high - b.low) - Math.abs(a.high - a.low));
};
