import { describe, expect, it } from 'vitest';
import type { GridColumn } from '../../../renderer/components/data-grid/types.ts';
import {
  addLook,
  arrange,
  moved,
  sortOf,
  unknownOf,
  viewQuery,
} from '../../../renderer/components/saved-views/list-look.ts';
import { lookIn } from '../../../valuation/reading/list-address.ts';

const column = (id: string, pinned = false): GridColumn<object> => ({
  id,
  title: id,
  width: 80,
  pinned,
  value: () => null,
});
const columns = [column('number', true), column('name'), column('grade'), column('lot')];
const ids = (list: readonly { id: string }[]) => list.map(({ id }) => id);

describe('how a list is looked at', () => {
  it('stands in the address, and comes back from it', () => {
    for (const look of [
      { saved: 'Best & rest', sort: { columnId: 'grade', descending: true }, columns: ['lot', 'name'] },
      { saved: null, sort: null, columns: null },
      { saved: null, sort: undefined, columns: ['grade'] },
    ])
      expect(lookIn(addLook(new URLSearchParams('lot=3'), look).toString())).toEqual(look);
  });

  it('loses its view’s name where nothing of a view is left', () => {
    const look = { saved: 'Best', sort: undefined, columns: null };
    expect(addLook(new URLSearchParams(), look).toString()).toBe('');
    expect(addLook(new URLSearchParams('lot=3'), look).toString()).toBe('lot=3&saved=Best');
  });

  it('is saved without the name, in an order of its own', () => {
    expect(viewQuery('sort=name&saved=A&lot=3')).toBe(viewQuery('lot=3&sort=name&saved=B'));
  });

  it('shows chosen columns in their order, those that are pinned always and first', () => {
    expect(ids(arrange(columns, ['lot', 'name', 'lot', 'number', 'gone']).shown)).toEqual([
      'number',
      'lot',
      'name',
    ]);
    expect(arrange(columns, ['lot', 'gone']).unknown).toEqual(['gone']);
    expect(ids(arrange(columns, ['gone']).shown)).toEqual(ids(columns));
    expect(moved(['number', 'name', 'grade'], 'grade', 1)).toEqual(['number', 'grade', 'name']);
  });

  it('sorts by no column that is not shown, and says which it does not know', () => {
    const byLot = { columnId: 'lot', descending: false };
    expect(sortOf(columns, byLot, null)).toEqual(byLot);
    expect(sortOf(columns.slice(0, 2), byLot, null)).toBeNull();
    expect(sortOf(columns, undefined, byLot)).toEqual(byLot);
    expect(sortOf(columns, null, byLot)).toBeNull();
    expect(unknownOf(columns, lookIn('sort=-rust&columns=lot,wheels'))).toEqual([
      'the column “wheels”',
      'sorting by “rust”',
    ]);
  });
});
