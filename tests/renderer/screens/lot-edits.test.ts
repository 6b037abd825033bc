import { describe, expect, it } from 'vitest';
import type { CellChange } from '../../../renderer/components/data-grid/types.ts';
import {
  carChanges,
  newCar,
  parseGradeText,
  shareChanges,
} from '../../../renderer/screens/lots/lot/car-edits.ts';
import { draftCosts, draftOf, draftTotal, emptyDraft } from '../../../renderer/screens/lots/lot-draft.ts';

const change = (
  rowId: string,
  columnId: string,
  value: CellChange['value'],
  choice: string | null = null,
): CellChange => ({
  rowId,
  columnId,
  value,
  choice: choice === null ? null : { value: choice, label: String(value) },
});

describe('what is edited in a lot', () => {
  it('becomes one patch for each car, its typed text together', () => {
    expect(
      carChanges([
        change('3', 'colour', 'Ember'),
        change('3', 'basePaint', 'none'),
        change('4', 'grade', 6.5),
        change('3', 'notes', null),
      ]),
    ).toEqual([
      { id: 3, patch: { asWritten: { colour: 'Ember', base_paint: 'none' }, notes: '' } },
      { id: 4, patch: { grade: 6.5 } },
    ]);
  });

  it('takes a chosen casting or variation, else the text as it is written', () => {
    expect(newCar([change('', 'casting', 'x', 'variation:12')])).toEqual({ variationId: 12 });
    expect(newCar([change('', 'casting', 'x', 'casting:5')])).toEqual({ castingId: 5 });
    expect(newCar([change('', 'casting', 'mystery coupe')])).toEqual({
      asWritten: { casting: 'mystery coupe' },
    });
    expect(carChanges([change('1', 'casting', null)])[0]?.patch).toEqual({
      castingId: null,
      variationId: null,
      asWritten: { casting: '' },
    });
  });

  it('keeps shares apart from cars, and an emptied number out', () => {
    const changes = [change('1', 'cost', 1250), change('2', 'cost', null), change('1', 'number', null)];
    expect(carChanges(changes)).toEqual([]);
    expect(shareChanges(changes)).toEqual([
      { carId: 1, minor: 1250 },
      { carId: 2, minor: null },
    ]);
  });

  it('reads grades as people type them', () => {
    for (const text of ['7.5', 'C7.5', 'c 7,5', '7½', '7.5/10'])
      expect(parseGradeText(text)).toEqual({ value: 7.5 });
    for (const text of ['11', '7.3', 'good', '0']) expect(parseGradeText(text)).toHaveProperty('problem');
  });
});

describe('the draft of a lot', () => {
  it('keeps every cost: a second of one kind, or one with a note, goes to the others', () => {
    const draft = draftOf({
      ...({} as Parameters<typeof draftOf>[0]),
      name: 'Tin',
      boughtOn: null,
      seller: '',
      currency: 'USD',
      notes: '',
      costs: [
        { kind: 'price', minor: 1000, note: '' },
        { kind: 'price', minor: 200, note: '' },
        { kind: 'carriage', minor: 300, note: 'by rail' },
        { kind: 'other', minor: 50, note: 'fuel' },
      ],
    });
    expect(draft.usual).toEqual({ price: 1000, premium: null, tax: null, carriage: null });
    expect(draft.others.map(({ note }) => note)).toEqual(['price', 'by rail', 'fuel']);
    expect(draftTotal(draft)).toBe(1550);
    expect(draftCosts(emptyDraft('USD', null))).toEqual([]);
  });
});
