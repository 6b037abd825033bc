import fc from 'fast-check';
import { expect, it } from 'vitest';
import { disclosureText } from '../../../valuation/wording/cars/disclosure-text.ts';
import { standingWork, type WorkRecord } from '../../../valuation/wording/cars/disclosure-work.ts';
import { closures, deviationKinds, deviationLabel, workKinds } from '../../../valuation/words.ts';

const record = (change: Partial<WorkRecord>): WorkRecord => ({
  kind: 'restore',
  finishedOn: '2024-05-04',
  fidelity: null,
  departures: [],
  closure: '',
  bearings: '',
  axles: '',
  leftAsWas: '',
  colour: '',
  who: '',
  ...change,
});
const restored = record({
  fidelity: 'with deviations',
  departures: ['visible post closure'],
  closure: 'screw',
  axles: 'straightened',
  colour: 'ember',
  who: 'E. Tarrow',
});
const saying = (records: readonly WorkRecord[], wornFinish = '') =>
  disclosureText(
    {
      finishState: 'restored',
      madeColour: 'Ember',
      wornColour: '',
      wornFinish,
      parts: [],
      mark: '',
      work: standingWork(records),
    },
    'en-GB',
  );

it('says of a restored car that was cleaned later what its restoration was', () => {
  const cleaned = record({
    kind: 'conserve',
    finishedOn: '2026-03-14',
    closure: 'not opened',
    leftAsWas: 'the scratches',
    who: 'M. Oake',
  });
  expect(saying([cleaned, restored])).toBe(
    'Restored: this is not the factory finish. It wears Ember; it was made in that colour. ' +
      'Work on it was finished on 4 May 2024 by E. Tarrow. Later work on it was finished on 14 March 2026 by M. Oake. ' +
      'It departs from the factory specification: visible post closure. It was opened and closed with screws. ' +
      'Axles: straightened. Left as it was: the scratches.',
  );
});

it('leaves to a new painting what it says itself', () => {
  const again = record({ finishedOn: '2026-03-14', fidelity: 'to specification', closure: 'as made' });
  const text = saying([again, restored]);
  expect(text).toContain('The colour that it wears now is not recorded.');
  expect(text).toContain('Work on it was finished on 14 March 2026.');
  expect(text).not.toContain('visible post closure');
  expect(text).not.toContain('E. Tarrow');
});

it('names the colour that a car was made in where it was painted in it again', () => {
  expect(saying([restored], 'candy lacquer')).toContain(
    'It wears Ember, candy lacquer; it was made in that colour.',
  );
  expect(standingWork([])).toBeNull();
});

it('drops no departure and no opening by work that paints nothing', () => {
  const records = fc.array(
    fc.record({
      kind: fc.constantFrom(...workKinds),
      departures: fc.subarray([...deviationKinds]),
      closure: fc.constantFrom('' as const, 'not opened' as const, ...closures),
    }),
    { minLength: 1, maxLength: 4 },
  );
  fc.assert(
    fc.property(records, fc.constantFrom('conserve' as const, 'donor' as const), (before, kind) => {
      const works = before.map(one => record(one));
      const then = saying([record({ kind, finishedOn: '2026-01-01', closure: 'not opened' }), ...works]);
      for (const departure of standingWork(works)!.departures)
        expect(then).toContain(deviationLabel(departure));
      const { closure } = standingWork(works)!;
      if (closure !== '' && closure !== 'not opened') expect(then).toContain('It was opened and');
    }),
  );
});
