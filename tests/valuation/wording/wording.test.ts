import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Decision, Help, Reason } from '../../../valuation/types.ts';
import { type NextStep, nextStepText } from '../../../valuation/wording/next-step-text.ts';
import type { Reader } from '../../../valuation/wording/reader.ts';
import { bidText } from '../../../valuation/wording/values/bid-text.ts';
import {
  doubtfulText,
  evidenceText,
  helpText,
  reportedEvidence,
} from '../../../valuation/wording/values/evidence-text.ts';
import { guardInShort, guardText } from '../../../valuation/wording/values/guard-text.ts';
import { reasonText, tornadoInputText, turningText } from '../../../valuation/wording/values/reason-text.ts';
import {
  adjustmentText,
  asideText,
  departureText,
  otherVariationText,
} from '../../../valuation/wording/values/record-text.ts';
import { verdictText } from '../../../valuation/wording/values/verdict-text.ts';
import { options } from '../../../valuation/words.ts';
import {
  asides,
  causes,
  evidence,
  guards,
  helps,
  nextSteps,
  readers,
  reasons,
  turnings,
  verdicts,
} from './samples.ts';

const [american, yen, , german, germanYen] = readers as [Reader, Reader, Reader, Reader, Reader];
const british: Reader = { locale: 'en-GB', currency: 'USD' };

const sound = (text: string) => {
  expect(text).not.toMatch(/undefined|NaN|null|\[object|Infinity| {2}|^\s|\s$/);
  expect(text).toMatch(/^[A-Z0-9]/);
};
/** Ends as a sentence does. */
const sentence = (text: string) => {
  sound(text);
  expect(text).toMatch(/[.)]$/);
};

describe('the reasons for a recommendation', () => {
  it('are sentences, whatever the kind, for readers of two languages and currencies', () => {
    for (const reader of readers)
      for (const reason of Object.values(reasons)) sentence(reasonText(reason, reader));
  });

  it('have amounts as the reader writes them', () => {
    expect(reasonText(reasons.gain, american)).toBe(
      'Restoring it is expected to bring 2,204.00 more than leaving it, after costs of 7.00 and selling costs, and beats leaving in 90 of 100 cases.',
    );
    expect(reasonText(reasons.gain, german)).toContain(
      'bring 2.204,00 more than leaving it, after costs of 7,00',
    );
    expect(reasonText(reasons.gain, yen)).toContain(
      'bring 220,400 more than leaving it, after costs of 700 and',
    );
    expect(reasonText(reasons.gain, germanYen)).toContain('bring 220.400 more');
    const free: Reason = { ...reasons.gain, expectedGain: -100, cost: { low: 0, mid: 0, high: 0 } };
    expect(reasonText(free, american)).toContain('bring 1.00 less than leaving it, after selling costs, and');
    expect(reasonText({ ...free, afterFees: false }, american)).toContain('than leaving it, and beats');
  });

  it('name what a plan must sell for and may cost', () => {
    const even = reasons['break-even'];
    expect(reasonText(even, american)).toBe(
      'Restoring pays if it sells for 60.61 or more and costs less than 20.73.',
    );
    const not = { ...even, recommended: false };
    expect(reasonText(not, german)).toBe(
      'Restoring pays only if it sells for 60,61 or more, or costs less than 20,73.',
    );
    expect(reasonText({ ...not, cost: 0 }, yen)).toBe(
      'Restoring pays only if it sells for 6,061 or more; no cost is low enough.',
    );
    const custom = { ...even, option: 'customise' as const };
    expect(reasonText(custom, american)).toMatch(/^Customizing pays/);
    expect(reasonText(custom, british)).toMatch(/^Customising pays/);
  });

  it('say what the value rests on, and which records are doubtful', () => {
    expect(reasonText(reasons.evidence, american)).toBe(
      'The value rests on 62 % this variation’s 4 sales, 35 % its casting’s 31, 3 % its series’ 90. 1 record of its casting is doubtful and counts little.',
    );
  });

  it('are never empty nor hold a figure that is none', () => {
    const amount = fc.integer({ min: -(2 ** 40), max: 2 ** 40 });
    const positive = fc.integer({ min: 0, max: 2 ** 40 });
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    const range = fc.record({ low: positive, mid: positive, high: positive });
    const kinds = Object.keys(reasons) as Reason['kind'][];
    const drawn = fc.record({
      kind: fc.constantFrom(...kinds),
      option: fc.constantFrom(...options),
      gain: amount,
      cost: range,
      share,
      flag: fc.boolean(),
      reader: fc.constantFrom(...readers),
    });
    fc.assert(
      fc.property(drawn, ({ kind, option, gain, cost, share: chance, flag, reader }) => {
        const reason = {
          ...reasons[kind],
          ...(kind === 'gain' && { option, expectedGain: gain, cost, probability: chance, afterFees: flag }),
          ...(kind === 'break-even' && { recommended: flag, worth: cost.mid, cost: cost.low }),
          ...(kind === 'under-least-gain' && { leastGain: cost.high }),
          ...(kind === 'under-least-probability' && { leastProbability: chance }),
        } as Reason;
        sentence(reasonText(reason, reader));
      }),
    );
  });
});

describe('a guard', () => {
  it('is told with what follows from it, and with the reason of the owner who overruled it', () => {
    expect(guardText(guards['keep-grade'])).toBe(
      'Its original finish at C8.5 is at or above the keep-grade C7: a factory finish can be removed only once.',
    );
    expect(guardText({ ...guards['keep-grade'], finish: null })).toBe(
      'Its original finish is not graded: it may be at or above the keep-grade C7. Grade it before any paint.',
    );
    expect(guardText(guards.rarity)).toBe(
      'It may be a scarce or rare variation: identify it before any paint. Overruled: Mine.',
    );
    expect(guardText({ ...guards.rarity, rarities: ['rare'], identified: true, overruled: false })).toBe(
      'Its variation is rare: what is left of the factory finish is worth saving.',
    );
  });
  it('has a short form without a full stop, whatever its owner wrote', () => {
    expect(guardInShort({ ...guards.rarity, reason: 'Odd: it is. Really' })).toBe(
      'It may be a scarce or rare variation',
    );
  });
});

describe('what a recommendation turns on', () => {
  it('is one line, whatever the kind', () => {
    for (const reader of readers)
      for (const turning of Object.values(turnings)) {
        const text = turningText(turning, reader);
        if (turning.kind === 'no-other') expect(text).toBe('');
        else sentence(text);
      }
  });
  it('has the amounts and the spelling of the reader', () => {
    expect(turningText(turnings['next-best'], american)).toBe('Next best is customizing, −12.34.');
    expect(turningText(turnings['next-best'], germanYen)).toBe('Next best is customising, −1.234.');
    expect(turningText(turnings['under-least-gain'], german)).toBe(
      'Using it for parts brings +1,00, under your least gain of 5.000,00.',
    );
    expect(turningText(turnings['under-least-probability'], yen)).toBe(
      'Restoring brings +900, but pays in only 41 % of cases; you ask for 60 %.',
    );
  });
  it('has each input of the tornado by another name', () => {
    const inputs: Record<Decision['tornado'][number]['input'], true> = {
      'worth-afterwards': true,
      'worth-as-found': true,
      cost: true,
      'spoil-chance': true,
      'selling-costs': true,
    };
    const names = (Object.keys(inputs) as (keyof typeof inputs)[]).map(tornadoInputText);
    expect(new Set(names).size).toBe(names.length);
  });
});

describe('evidence', () => {
  it('is told by its shares, those under half a per cent left out', () => {
    expect(evidenceText(evidence)).toBe(
      '62 % this variation’s 4 sales, 35 % its casting’s 31, 3 % its series’ 90',
    );
    const one = { ...evidence, sales: 1, shares: { variation: 1, casting: 0.004, series: 0, everything: 0 } };
    expect(evidenceText(one)).toBe('100 % this variation’s 1 sale');
    const none = { ...evidence, shares: { variation: 0, casting: 0, series: 0, everything: 1 } };
    expect(evidenceText(none)).toBe('100 % all records together');
    expect(doubtfulText({ ...evidence, doubtful: [] })).toBeNull();
    expect(doubtfulText({ ...evidence, doubtful: [1, 2] })).toBe(
      '2 records of its casting are doubtful and count little.',
    );
  });
  it('is not claimed for a figure of the owner’s own', () => {
    expect(reportedEvidence(evidence, false)).toBe(evidenceText(evidence));
    expect(reportedEvidence(evidence, true)).not.toContain('%');
  });
  it('that is lacking comes with what would help', () => {
    for (const help of Object.keys(helps) as Help[]) sentence(helpText(help));
  });
});

describe('a sale record', () => {
  it('is brought to the car in words, line by line', () => {
    for (const { locale } of readers)
      for (const cause of Object.values(causes)) sound(adjustmentText(cause, locale));
    expect(adjustmentText(causes['exchange-rate'], 'en-US')).toBe('EUR to USD at the rate of Feb 3, 2024');
    expect(adjustmentText(causes['exchange-rate'], 'en-GB')).toBe('EUR to USD at the rate of 3 Feb 2024');
    expect(adjustmentText(causes.trend, 'de-DE')).toBe('Fitted trend over 3,5 years');
    expect(adjustmentText(causes.grade, 'en-US')).toBe(
      'From ungraded, taken as C6, to C4.5, original finish',
    );
    expect(adjustmentText(causes['made-complete'], 'en-US')).toBe(
      'Made complete: wheels missing, reproduction roof',
    );
  });
  it('that is set aside or doubted says why', () => {
    for (const { locale } of readers) for (const aside of asides) sound(asideText(aside, locale));
    expect(asideText({ kind: 'no-rate', currency: 'GBP', on: '2023-05-06' }, 'en-GB')).toBe(
      'No exchange rate for GBP on 6 May 2023',
    );
    expect(departureText(-3.46, 'de-DE')).toMatch(/^3,5 standard deviations below/);
    expect(departureText(3.46, 'en-US')).toMatch(/^3\.5 standard deviations above/);
    expect(otherVariationText(0.812, 'en-US')).toMatch(/^its price suits another .* \(81 % likely\)/);
  });
});

describe('the verdict on past estimates', () => {
  it('is plain', () => {
    for (const verdict of verdicts) sentence(verdictText(verdict));
    expect(verdictText({ kind: 'too-few', count: 1 })).toContain('Only 1 of the cars sold was valued before');
    expect(verdictText({ kind: 'wrong', count: 40, faults: [{ kind: 'bias', bias: -0.25 }] })).toBe(
      'The estimates have been wrong. Over 40 sales, cars typically brought 25 % less than they were valued at.',
    );
  });
});

describe('a bid', () => {
  const facts = { bid: 123_400, total: 150_000, margin: 0.2, probability: 0.81, fees: 0.12, withoutWorth: 0 };
  it('is told with its total and what is left, in the currency of the reader', () => {
    expect(bidText(facts, american)).toBe(
      'Bid 1,234.00 USD at most. That is 1,500.00 USD all in, and 20 % of what the cars bring is left over with a probability of 81 %, after selling costs of 12 %.',
    );
    expect(bidText(facts, germanYen)).toContain('Bid 123.400 JPY at most. That is 150.000 JPY all in');
    expect(bidText({ ...facts, withoutWorth: 1 }, american)).toContain(
      '1 car has no value and counts as nothing.',
    );
    expect(bidText({ ...facts, withoutWorth: 2 }, german)).toContain(
      '2 cars have no value and count as nothing.',
    );
  });
  it('of nothing is advised against, in the words of the reader', () => {
    expect(bidText({ ...facts, bid: 0 }, american)).toContain(
      'even if the cars cost nothing, shipping and selling costs',
    );
    expect(bidText({ ...facts, bid: 0 }, british)).toContain(
      'even if the cars cost nothing, carriage and selling costs',
    );
  });
});

describe('what to do next', () => {
  it('is one line each, of one car and of many', () => {
    for (const kind of Object.keys(nextSteps) as NextStep['kind'][])
      for (const count of [1, 2]) sound(nextStepText({ kind, count }));
    expect(nextStepText({ kind: 'decide', count: 1 })).toBe('1 car is worth working on: decide');
    expect(nextStepText({ kind: 'decide', count: 3 })).toBe('3 cars are worth working on: decide');
  });
});
