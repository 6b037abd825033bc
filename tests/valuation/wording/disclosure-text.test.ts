import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  colourNow,
  type DisclosureFacts,
  disclosureText,
} from '../../../valuation/wording/cars/disclosure-text.ts';
import {
  closures,
  deviationKinds,
  deviationLabel,
  finishStates,
  originalities,
  partNames,
} from '../../../valuation/words.ts';

const plain: DisclosureFacts = {
  finishState: 'original',
  madeColour: 'Ember',
  wornColour: '',
  wornFinish: '',
  parts: [],
  mark: '',
  work: null,
};

describe('the disclosure', () => {
  it('says what a restored car is, what it wears and was made in, and each departure', () => {
    expect(
      disclosureText(
        {
          ...plain,
          finishState: 'restored',
          wornColour: 'Teal',
          wornFinish: 'candy lacquer',
          parts: [
            { part: 'wheels', grade: 9, originality: 'reproduction' },
            { part: 'glazing', grade: null, originality: 'missing' },
          ],
          mark: 'a punch mark under the base',
          work: {
            finishedOn: '2026-03-14',
            fidelity: 'with deviations',
            departures: ['another colour', 'visible post closure', 'textured roof'],
            closure: 'screw',
            bearings: 'kept',
            axles: 'straightened',
            leftAsWas: 'scratches in the cover, too deep',
            colour: '',
            later: [],
            who: 'E. Tarrow',
          },
        },
        'en-GB',
      ),
    ).toBe(
      'Restored: this is not the factory finish. It wears Teal, candy lacquer; it was made in Ember. Work on it was finished on 14 March 2026 by E. Tarrow. ' +
        'It departs from the factory specification: another colour, visible post closure, other roof finish. It was opened and closed with screws. ' +
        'Wheel bearings: kept. Axles: straightened. Left as it was: scratches in the cover, too deep. ' +
        'Parts that are not its own: reproduction wheels. Missing: glazing. Restorer’s mark: a punch mark under the base.',
    );
  });

  it('says of a restored car without a record that nothing is recorded', () => {
    expect(disclosureText({ ...plain, finishState: 'restored' }, 'en-US')).toBe(
      'Restored: this is not the factory finish. The color that it wears now is not recorded. ' +
        'How closely it follows the factory specification is not recorded.',
    );
  });

  it('is empty only for a car as it was made', () => {
    expect(disclosureText(plain, 'en-US')).toBe('');
    expect(disclosureText({ ...plain, wornColour: 'Teal' }, 'en-US')).toContain('It wears Teal');
    for (const finishState of finishStates)
      if (finishState !== 'original') {
        const text = disclosureText({ ...plain, finishState }, 'en-GB').toLowerCase();
        expect(text).toContain(finishState);
      }
  });

  it('names who did the work, with its day or without', () => {
    const work: NonNullable<DisclosureFacts['work']> = {
      finishedOn: null,
      fidelity: 'custom',
      departures: [],
      closure: '',
      bearings: '',
      axles: '',
      leftAsWas: '',
      colour: '',
      later: [],
      who: ' a friend of hers, M. Oake jr. ',
    };
    const saying = (change: Partial<typeof work>) =>
      disclosureText({ ...plain, finishState: 'customised', work: { ...work, ...change } }, 'en-GB');
    expect(saying({})).toContain('The work on it was done by a friend of hers, M. Oake jr. It was not meant');
    expect(saying({ finishedOn: '2026-03-14' })).toContain(
      'finished on 14 March 2026 by a friend of hers, M. Oake jr. It was not meant',
    );
    expect(saying({ finishedOn: '2026-03-14', who: ' ' })).toContain('finished on 14 March 2026. It');
    expect(saying({ who: '' })).not.toContain('was done');
  });

  it('names every departure, every part that is not its own and every missing one, whatever else there is', () => {
    fc.assert(
      fc.property(
        fc.record({
          finishState: fc.constantFrom(...finishStates),
          departures: fc.subarray([...deviationKinds]),
          closure: fc.constantFrom('' as const, 'not opened' as const, ...closures),
          parts: fc.uniqueArray(
            fc.record({
              part: fc.constantFrom(...partNames),
              grade: fc.constant(null),
              originality: fc.constantFrom(...originalities),
            }),
            { selector: ({ part }) => part },
          ),
        }),
        ({ finishState, departures, closure, parts }) => {
          const work = {
            finishedOn: null,
            fidelity: null,
            departures,
            closure,
            bearings: '',
            axles: '',
            leftAsWas: '',
            colour: '',
            later: [],
            who: '',
          };
          const text = disclosureText({ ...plain, finishState, parts, work }, 'en-GB');
          for (const kind of departures) expect(text).toContain(deviationLabel(kind));
          for (const { part, originality } of parts)
            if (originality !== 'original') expect(text).toContain(part);
          expect(text).not.toMatch(/undefined|null| {2}|\.\./);
        },
      ),
    );
  });
});

it('writes the colour that a car wears beside the one it was made in', () => {
  expect(colourNow('Ember', '')).toBe('Ember');
  expect(colourNow('Ember', 'ember')).toBe('Ember');
  expect(colourNow('Ember', 'Teal')).toBe('Teal, was Ember');
  expect(colourNow('', 'Teal')).toBe('Teal');
});
