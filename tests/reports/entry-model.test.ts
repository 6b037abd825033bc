import { describe, expect, it } from 'vitest';
import { entryModel } from '../../reports/model/entry-model.ts';
import { worthAxis } from '../../reports/model/worth-axis.ts';
import type { ReportEntry } from '../../reports/types.ts';
import { spell } from '../../valuation/wording/dialect.ts';
import { finishStates, partNames } from '../../valuation/words.ts';
import { plainEntry, sampleReport, worth } from './sample-report.ts';

const modelOf = (changes: Partial<ReportEntry>) => {
  const entry = plainEntry(changes);
  return entryModel(entry, sampleReport([entry]), worthAxis([1000, 100000], 'USD'), () => null);
};

describe('what a report says of a car', () => {
  it.each(finishStates.filter(state => state !== 'original'))(
    'always says that a car is %s, in words',
    finishState => {
      for (const restoration of [
        null,
        { fidelity: 'to specification', deviations: [], completedOn: null } as const,
        { fidelity: 'with deviations', deviations: ['another colour'], completedOn: '2026-03-14' } as const,
      ]) {
        const { finish, finishStatement } = modelOf({
          finishState,
          restoration: restoration && { ...restoration, deviations: [...restoration.deviations] },
        });
        const word = spell(finishState, 'en-US');
        expect(finish).toBe(word);
        expect(finishStatement.toLowerCase().startsWith(word)).toBe(true);
      }
    },
  );

  it('lists the deviations of a restoration', () => {
    const restoration = {
      fidelity: 'with deviations' as const,
      deviations: ['another colour', 'textured roof'],
      completedOn: null,
    };
    expect(modelOf({ finishState: 'restored', restoration }).finishStatement).toContain(
      'It departs from the factory specification: another color, other roof finish.',
    );
  });

  it('says nothing of the kind of an original finish', () => {
    expect(modelOf({}).finishStatement).toBe('');
  });

  it('names the parts apart from the rest and sums up the others', () => {
    const parts = partNames.map(part => ({ part, grade: 7, originality: 'original' as const }));
    const all = modelOf({ parts });
    expect(all.parts).toEqual([]);
    expect(all.partsSentence).toBe('All 19 parts looked at are original at C7.');
    const some = modelOf({
      parts: [
        ...parts.slice(0, 7),
        { part: 'accessory', grade: null, originality: 'missing' },
        { part: 'labels', grade: 9, originality: 'reproduction' },
        { part: 'axles', grade: 4.5, originality: 'original' },
      ],
    });
    expect(some.parts.map(part => Object.values(part).join(' '))).toEqual([
      'accessory \u2013 missing',
      'labels C9 reproduction',
      'axles C4.5 original',
    ]);
    expect(some.partsSentence).toBe('The other 7 parts looked at: original at C7.');
  });

  it('keeps the three worths in their order, each with its fill, and says why one is absent', () => {
    const { rows, stripAlt } = modelOf({
      worths: {
        asFound: worth(100, 200, 300, { own: true }),
        restored: worth(null, 0, 0, { note: 'no restoration planned' }),
        originalFinish: worth(null),
      },
    });
    expect(rows.map(row => [row.label, row.fill, row.own, row.note])).toEqual([
      ['As found', 'solid', true, ''],
      ['Restored', 'hatched', false, 'no restoration planned'],
      ['Original finish', 'outlined', false, 'not enough evidence'],
    ]);
    expect(stripAlt).toBe(
      'Value in USD: as found 1.00 to 3.00, middle 2.00, the owner\u2019s own figure; restored no restoration planned; original finish not enough evidence.',
    );
  });

  it('shows a restored worth net of its cost, with the gross end as a whisker', () => {
    const { rows, worthNotes } = modelOf({
      worths: { asFound: worth(null), restored: worth(5000, 8000, 20000), originalFinish: worth(null) },
      restorationCost: { low: 3000, mid: 4500, high: 9000 },
    });
    expect(rows[1]!.figures).toEqual({ low: '5.00', mid: '35.00', high: '155.00' });
    expect(rows[1]!.bar).toMatchObject({ opensLeft: true, low: 0 });
    expect(rows[1]!.bar!.whisker!).toBeGreaterThan(rows[1]!.bar!.high);
    expect(worthNotes).toBe('Restored: after 45.00 of work.');
  });

  it('keeps what the owner wrote of a car that is not identified', () => {
    const identity = {
      ...plainEntry().identity,
      casting: null,
      releaseName: null,
      asWritten: 'small red thing',
    };
    expect(modelOf({ identity }).name).toBe('small red thing');
    expect(modelOf({ identity: { ...identity, asWritten: null } }).name).toBe('Not identified');
  });
});
