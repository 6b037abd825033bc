import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Choice, chooseUnderLimits } from '../../../valuation/index.ts';
import { seededRandom } from '../../helpers/random.ts';

/** The largest gain by trying every choice; null where none keeps the limits. */
const tryAll = ({ gains, uses, limits }: Choice): number | null => {
  let best: number | null = null;
  for (let mask = 0; mask < 2 ** gains.length; mask++) {
    const total = (values: readonly number[]) =>
      values.reduce((sum, x, j) => sum + ((mask >> j) & 1 ? x : 0), 0);
    if (limits.every((limit, i) => total(uses[i]!) <= limit + 1e-9))
      best = Math.max(best ?? total(gains), total(gains));
  }
  return best;
};

const choices = (least: number): fc.Arbitrary<Choice> =>
  fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 3 })).chain(([count, rows]) =>
    fc.record({
      gains: fc.array(fc.integer({ min: -20, max: 100 }), { minLength: count, maxLength: count }),
      uses: fc.array(fc.array(fc.integer({ min: least, max: 12 }), { minLength: count, maxLength: count }), {
        minLength: rows,
        maxLength: rows,
      }),
      limits: fc.array(fc.integer({ min: 0, max: 40 }), { minLength: rows, maxLength: rows }),
    }),
  );

describe('chooseUnderLimits', () => {
  it.each([
    ['uses', 0],
    ['uses of which some free more than they take', -6],
  ])('finds the best choice and the worth of one more of each limit: %s', async (_, least) => {
    await fc.assert(
      fc.asyncProperty(choices(least), async choice => {
        const best = tryAll(choice)!;
        const { chosen, gain, worthOfOneMore, gapLeft } = await chooseUnderLimits(choice);
        expect(gain).toBeCloseTo(best, 9);
        expect(gapLeft).toBeUndefined();
        expect(choice.gains.reduce((sum, g, j) => sum + (chosen[j] ? g : 0), 0)).toBeCloseTo(gain, 9);
        choice.limits.forEach((limit, i) => {
          expect(choice.uses[i]!.reduce((sum, use, j) => sum + (chosen[j] ? use : 0), 0)).toBeLessThanOrEqual(
            limit,
          );
          const more = { ...choice, limits: choice.limits.map((l, k) => (k === i ? l + 1 : l)) };
          expect(worthOfOneMore[i]).toBeCloseTo(tryAll(more)! - best, 9);
        });
      }),
      { numRuns: 60 },
    );
  });

  it('sorts out what gains nothing, and takes all where nothing binds', async () => {
    expect(await chooseUnderLimits({ gains: [5, 0, -3, 2], uses: [[1, 1, 1, 1]], limits: [10] })).toEqual({
      chosen: [true, false, false, true],
      gain: 7,
      worthOfOneMore: [0],
    });
    expect(await chooseUnderLimits({ gains: [-1, 0], uses: [[1, 1]], limits: [0] })).toEqual({
      chosen: [false, false],
      gain: 0,
      worthOfOneMore: [0],
    });
  });

  it('counts decimal uses as they are meant, and amounts of any size', async () => {
    const tenths = { gains: [1, 1, 1], uses: [[0.1, 0.2, 0.3]], limits: [0.3] };
    expect((await chooseUnderLimits(tenths)).gain).toBe(2);
    const large = { gains: [6e11, 5e11, 5e11], uses: [[6e11, 5e11, 5e11]], limits: [1e12] };
    expect((await chooseUnderLimits(large)).chosen).toEqual([false, true, true]);
    const small = { gains: [6e-7, 5e-7, 5e-7], uses: [[6e-9, 5e-9, 5e-9]], limits: [1e-8] };
    expect((await chooseUnderLimits(small)).chosen).toEqual([false, true, true]);
    const tight = { gains: [1, 1], uses: [[500_000_000, 500_000_001]], limits: [1_000_000_000] };
    expect((await chooseUnderLimits(tight)).gain).toBe(1);
  });

  it('gives the same answer each time, and keeps to the gap it was given', async () => {
    const count = 70;
    const { between } = seededRandom(11);
    const row = (low: number, high: number) => Array.from({ length: count }, () => between(low, high));
    const given = {
      gains: row(50, 450),
      uses: [row(1, 10), row(1, 10), row(1, 10)],
      limits: [120, 130, 140],
    };
    const exact = await chooseUnderLimits(given);
    expect(await chooseUnderLimits(given)).toEqual(exact);
    const rough = await chooseUnderLimits(given, { gap: 0.02 });
    expect(rough.gain).toBeLessThanOrEqual(exact.gain + 1e-6);
    expect(rough.gain).toBeGreaterThanOrEqual(exact.gain * 0.98);
    expect(rough.gapLeft ?? 0).toBeLessThanOrEqual(0.02);
    expect(exact.gapLeft ?? 0).toBeLessThanOrEqual(0.001);
    for (const worth of rough.worthOfOneMore) expect(worth).toBeGreaterThanOrEqual(0);
  });

  it('ends with what it has where the work does not suffice, and says how far off it may be', async () => {
    const { between } = seededRandom(5);
    const rows = [0, 1, 2, 3, 4].map(() => Array.from({ length: 300 }, () => Math.round(between(1, 1000))));
    // Gains that follow the mean use make the hard cases of the textbooks.
    const gains = rows[0]!.map((_, j) => rows.reduce((sum, row) => sum + row[j]!, 0) / 5 + between(0, 500));
    const given = { gains, uses: rows, limits: rows.map(row => Math.floor(row.reduce((a, b) => a + b) / 2)) };
    for (const options of [{}, { gap: 0, work: 4000 }]) {
      const answer = await chooseUnderLimits(given, options);
      const { chosen, gain, gapLeft, worthOfOneMore } = answer;
      expect(gapLeft).toBeGreaterThan(0);
      expect(gapLeft).toBeLessThan(0.01);
      expect(gains.reduce((sum, g, j) => sum + (chosen[j] ? g : 0), 0)).toBeCloseTo(gain, 6);
      given.limits.forEach((limit, i) => {
        expect(rows[i]!.reduce((sum, use, j) => sum + (chosen[j] ? use : 0), 0)).toBeLessThanOrEqual(limit);
        expect(worthOfOneMore[i]).toBeGreaterThan(0);
      });
      if (options.work) expect(await chooseUnderLimits(given, options)).toEqual(answer);
    }
  });

  it('stops for an abort, before it starts and in the middle', async () => {
    const given = { gains: [5, 4], uses: [[1, 1]], limits: [1] };
    await expect(chooseUnderLimits(given, { signal: AbortSignal.abort() })).rejects.toThrow(/abort/i);
    await expect(chooseUnderLimits(given, { signal: AbortSignal.abort('no longer wanted') })).rejects.toBe(
      'no longer wanted',
    );
    await expect(chooseUnderLimits(given, { cancelled: () => true })).rejects.toMatchObject({
      name: 'AbortError',
    });
    const controller = new AbortController();
    const answer = chooseUnderLimits(given, { signal: controller.signal });
    controller.abort();
    await expect(answer).rejects.toMatchObject({ name: 'AbortError' });
    let asked = 0;
    await expect(chooseUnderLimits(given, { cancelled: () => ++asked > 3 })).rejects.toMatchObject({
      name: 'AbortError',
    });
    expect((await chooseUnderLimits(given)).gain).toBe(5);
  });

  it('refuses limits that nothing can keep', async () => {
    await expect(chooseUnderLimits({ gains: [1], uses: [[1]], limits: [-1] })).rejects.toThrow(
      'limits cannot be kept by any choice',
    );
    await expect(chooseUnderLimits({ gains: [-1], uses: [[1]], limits: [-1] })).rejects.toThrow(RangeError);
    // 2x = 1 can be kept in part, but not whole.
    const part = { gains: [1], uses: [[2], [-2]], limits: [1, -1] };
    await expect(chooseUnderLimits(part)).rejects.toThrow('limits cannot be kept by any choice');
  });

  it('refuses empty, mismatched and wild input, naming it', async () => {
    const refused = async (choice: Choice, message: RegExp) => {
      await expect(chooseUnderLimits(choice)).rejects.toThrow(RangeError);
      await expect(chooseUnderLimits(choice)).rejects.toThrow(message);
    };
    await refused({ gains: [], uses: [[]], limits: [1] }, /^gains must not be empty/);
    await refused({ gains: [1], uses: [], limits: [] }, /^limits must not be empty/);
    await refused({ gains: [1], uses: [], limits: [1] }, /^uses must have one row for each of the 1 limits/);
    await refused({ gains: [1, 2], uses: [[1]], limits: [1] }, /^uses\[0\] has 1 entries/);
    await refused({ gains: [Number.NaN], uses: [[1]], limits: [1] }, /^gains\[0\]/);
    await refused({ gains: [1], uses: [[Number.POSITIVE_INFINITY]], limits: [1] }, /^uses\[0\]\[0\]/);
    await refused({ gains: [1], uses: [[1]], limits: [Number.POSITIVE_INFINITY] }, /^limits\[0\]/);
    await expect(chooseUnderLimits({ gains: [1], uses: [[1]], limits: [1] }, { gap: -1 })).rejects.toThrow(
      /^gap must/,
    );
    await expect(
      chooseUnderLimits({ gains: [1], uses: [[1]], limits: [1] }, { work: Number.NaN }),
    ).rejects.toThrow(/^work must/);
  });
});
