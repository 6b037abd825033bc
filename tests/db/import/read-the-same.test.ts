import { describe, expect, it } from 'vitest';
import { runAction } from '../../../db/history/history.ts';
import { settleWords } from '../../../db/records/own-words/settle-words.ts';
import { at, newCollection } from '../../helpers/collections.ts';
import { fileOf, newLot, take } from './importing.ts';

const lot = newLot('Tin');
const list = 'Car,Condition,Paint state,Looks\nOsmerry,7,original,nice\nSkiffle,,,nice\nHarrow,8,,nice\n';
const numbered = `No,${list.trim().split('\n').join('\n')}`
  .split('\n')
  .map((line, i) => (i === 0 ? line : `${i},${line}`))
  .join('\n');
const word = (field: string, meaning: string) => [{ column: 'Looks', text: 'nice', field, meaning }];

const carsOf = ({ read }: Awaited<ReturnType<typeof newCollection>>) =>
  read.sqlite.prepare('SELECT grade_half, finish_state FROM car ORDER BY id').raw().all();

describe('a text of a column that is not read', () => {
  it.each([
    ['grade', '6'],
    ['finish_state', 'restored'],
    ['location', 'Shelf 2'],
    ['colour', 'Ember'],
  ])(
    'makes no car a second one where a word gives it a %s after the first import',
    async (field, meaning) => {
      for (const file of [list, numbered]) {
        const collection = await newCollection();
        expect((await take(collection, fileOf(file), { as: 'lot', lot })).accepted).toBe(3);
        const words = word(field, meaning);
        const again = await take(collection, fileOf(file), { as: 'lot', lot, words });
        expect([again.accepted, again.duplicates]).toEqual([0, 3]);
      }
    },
  );

  it('means the same in an import and when it is settled later: the column of the finish goes before it', async () => {
    const one = list.split('\n').slice(0, 2).join('\n');
    const [early, late] = [await newCollection(), await newCollection()];
    const restored = word('finish_state', 'restored');
    await take(early, fileOf(one), { as: 'lot', lot, words: restored });
    await take(late, fileOf(one), { as: 'lot', lot, words: word('grade', '6') });
    await runAction(late, 'Said what a text means', at, trx => settleWords(trx, restored, at));
    expect(carsOf(early)).toEqual([[14, 'original']]);
    expect(carsOf(late)).toEqual(carsOf(early));
    const again = await take(late, fileOf(one), { as: 'lot', lot, words: restored });
    expect(again.accepted).toBe(0);
  });
});

describe('figures beside letters', () => {
  const gradesOf = async (cells: string[], words: ReturnType<typeof word> = []) => {
    const file = `Car,Cond.\n${cells.map((cell, i) => `Car ${i},${cell}`).join('\n')}\n`;
    const collection = await newCollection();
    await take(collection, fileOf(file), { as: 'lot', lot, words });
    const halves = collection.read.sqlite.prepare('SELECT grade_half / 2 FROM car ORDER BY id');
    return halves.pluck().all();
  };
  it('wait for the scale where they may be of another one than C1 to C10, which is said once', async () => {
    expect(await gradesOf(['VG+', 'NM', 'G', '4'])).toEqual([null, null, null, null]);
    const scale = [{ column: 'Cond.', text: '*', field: 'grade_scale', meaning: '5 stars' }];
    expect(await gradesOf(['VG+', 'NM', 'G', '4'], scale)).toEqual([null, null, null, 8]);
  });
  it('are what they say where nothing else is of ten', async () => {
    expect(await gradesOf(['VG+', '7', 'G', '4'])).toEqual([null, 7, null, 4]);
    expect(await gradesOf(['VG+', 'C7', 'G', '4'])).toEqual([null, 7, null, 4]);
  });
});
