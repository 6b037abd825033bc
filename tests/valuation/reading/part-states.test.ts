import fc from 'fast-check';
import { expect, it } from 'vitest';
import { readPartState, readPartStates } from '../../../valuation/reading/part-states.ts';
import { partStatesText } from '../../../valuation/wording/cars/part-states-text.ts';
import { grades, originalities, partNames } from '../../../valuation/words.ts';

it('reads back every state of parts that it writes', () => {
  const states = fc.uniqueArray(
    fc
      .record({
        part: fc.constantFrom(...partNames),
        grade: fc.option(fc.constantFrom(...grades), { nil: null }),
        originality: fc.constantFrom(...originalities),
        note: fc.constantFrom('', 'bent', 'box', 'chip at the front, small', '1.10 mm: thin'),
      })
      .map(state => (state.originality === 'missing' ? { ...state, grade: null } : state)),
    { selector: ({ part }) => part },
  );
  fc.assert(
    fc.property(states, found => {
      expect(readPartStates(partStatesText(found))).toEqual({ ok: true, value: found });
    }),
  );
});

it('keeps what is neither a grade nor an origin as it is written, and guesses nothing', () => {
  expect(readPartState('axles', 'C3, bent')).toMatchObject({ value: { grade: 3, note: 'bent' } });
  expect(readPartState('base', 'rusty 3')).toMatchObject({ value: { grade: null, note: 'rusty 3' } });
  expect(readPartState('lamps', 7)).toMatchObject({ value: { grade: 7, note: '' } });
  expect(readPartState('wheels', '4 (2 flat)')).toMatchObject({ value: { grade: 4, note: '2 flat' } });
  expect(readPartState('wheels', '0')).toMatchObject({ ok: false });
  expect(readPartState('bumpers', 'no')).toMatchObject({ ok: false });
  expect(readPartState('packaging', 'no')).toMatchObject({ ok: true, value: null });
  expect(readPartStates('axles bent')).toMatchObject({ ok: false });
});

it('says of no car that it has a packaging which a list says that it has not, or may not have', () => {
  for (const none of [
    'nee',
    'no box',
    'without its original box',
    'sin caja',
    'zonder doos',
    'unboxed',
    'loose',
    'Box missing',
    '0',
  ])
    expect(readPartState('packaging', none), none).toEqual({ ok: true, value: null });
  for (const open of ['1', '?', 'box?', 'maybe', 'L', 'B'])
    expect(readPartState('packaging', open), open).toMatchObject({ ok: false });
  for (const copy of ['ja (Repro)', 'custom box', 'replica box', 'box (repro)'])
    expect(readPartState('packaging', copy), copy).toMatchObject({ value: { originality: 'reproduction' } });
  for (const there of ['Sí', 'ja', 'box', 'boxed', 'original box', 'no 3 box', 'C1'])
    expect(readPartState('packaging', there), there).toMatchObject({
      ok: true,
      value: { part: 'packaging' },
    });
});
