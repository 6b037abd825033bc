import { describe, expect, it } from 'vitest';
import { changesBetween, changesModel } from '../../reports/model/changes.ts';
import type { SaidOfCar } from '../../reports/types.ts';
import { sampleReport } from './sample-report.ts';

const said = (id: number, changes: Partial<SaidOfCar> = {}): SaidOfCar => ({
  id,
  number: `Q-${id}`,
  name: 'Silver Lane, Ember',
  grade: 7,
  finishState: 'original',
  status: 'kept',
  value: 10_000,
  ...changes,
});
const whyGone = () => 'removed' as const;

describe('what differs between two reports', () => {
  it('lists a value that moved by a twentieth, came or went, and counts those that moved less', () => {
    const before = [1, 2, 3, 4, 5, 6].map(id => said(id));
    const now = [
      said(1),
      said(2, { value: 10_499 }),
      said(3, { value: 10_500 }),
      said(4, { value: 9_500 }),
      said(5, { value: null }),
      said(6, { value: 9_501 }),
    ];
    const { changed, slightly } = changesBetween(before, now, { withValues: true, whyGone });
    expect(changed.map(({ now: { id }, what }) => [id, what])).toEqual([
      [3, ['value']],
      [4, ['value']],
      [5, ['value']],
    ]);
    expect(slightly).toBe(2);
    expect(changesBetween(before, now, { withValues: false, whyGone })).toEqual({
      added: [],
      gone: [],
      changed: [],
      slightly: 0,
    });
  });

  it('says nothing of a value in a copy without, and compares none in another currency', () => {
    const since = { name: 'March', on: '2026-03-14', total: 5000, currency: 'EUR', cars: 2 };
    const parts = changesBetween([said(1)], [said(1, { grade: 3 }), said(2)], {
      withValues: false,
      whyGone,
    });
    const report = { ...sampleReport([]), currency: 'USD', changes: { since, ...parts } };
    expect(changesModel(report)).toEqual({
      sentences: [
        'Compared with “March” of 14 March 2026, which had 2 cars and came to EUR 50.00.',
        'Its values are in EUR and are not compared.',
      ],
      added: [['Q-2', 'Silver Lane, Ember', 'C7', '100.00']],
      gone: [],
      changed: [['Q-1', 'Silver Lane, Ember', 'C7', 'C3']],
    });
    const bare = changesModel({ ...report, withoutValues: true });
    expect(JSON.stringify(bare)).not.toMatch(/50\.00|100\.00|values/);
  });
});
