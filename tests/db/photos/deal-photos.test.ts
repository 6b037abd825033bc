import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type BatchPhoto, dealPhotos } from '../../../db/photos/deal-photos.ts';

const at = (seconds: number) =>
  new Date(Date.UTC(2024, 4, 31, 12) + seconds * 1000).toISOString().slice(0, 19);
const carsOf = (photos: BatchPhoto[], numbers: string[]) => dealPhotos(photos, numbers).map(({ car }) => car);
const named = (...names: string[]): BatchPhoto[] => names.map(name => ({ name, takenAt: null }));

describe('dealing photographs by the number in the file name', () => {
  it('finds an inventory number however it is written, and only whole ones', () => {
    const numbers = ['Q-7', 'Q-70', 'B-12'];
    expect(carsOf(named('Q-007 side.jpg', 'q70.heic', 'base of b_12 (2).png', 'Q-701.jpg'), numbers)).toEqual(
      [0, 1, 2, null],
    );
    expect(carsOf(named('roof/Q-7.jpg', 'Q-7/IMG_0012.jpg'), numbers)).toEqual([0, null]);
  });

  it('takes digits alone for a car only at the head, since cameras and dates write digits too', () => {
    const numbers = ['7', '12', '2024'];
    expect(carsOf(named('7 side.jpg', '012-base.jpg', 'IMG_0007.jpg', 'side 12.jpg'), numbers)).toEqual([
      0,
      1,
      null,
      null,
    ]);
  });

  it('takes the longest number that is there, and none of several', () => {
    expect(carsOf(named('Q-7-2.jpg', 'Q-7 front.jpg'), ['Q-7', 'Q-7-2'])).toEqual([1, 0]);
    expect(dealPhotos(named('Q-1 and Q-2.jpg'), ['Q-1', 'Q-2'])).toEqual([
      { car: null, by: null, doubtful: true, reason: 'number names several cars' },
    ]);
  });
});

describe('dealing photographs by the order taken', () => {
  const numbers = ['A', 'B', 'C'].map(letter => `${letter}-1`);
  const taken = (...seconds: number[]) =>
    seconds.map((second, i) => ({ name: `IMG_${4000 + i}.HEIC`, takenAt: at(second) }));

  it('cuts at the longest gaps, whatever the order of the files, and says that it is doubtful', () => {
    const deals = dealPhotos(taken(65, 0, 5, 60, 200, 8), numbers);
    expect(deals.map(({ car }) => car)).toEqual([1, 0, 0, 1, 2, 0]);
    expect(deals.every(({ doubtful, by }) => doubtful && by === 'time')).toBe(true);
  });

  it('leaves to the owner what the gaps do not tell apart', () => {
    for (const seconds of [
      [0, 10, 20, 30, 40],
      [0, 0, 0],
      [0, 100],
      [0, 5, 60, 65, 74],
    ])
      expect(carsOf(taken(...seconds), numbers)).toEqual(seconds.map(() => null));
  });

  it('gives the cars that no name names what no name gives', () => {
    const photos = [...named('B-1.jpg'), ...taken(0, 4, 300, 302)];
    expect(carsOf(photos, numbers)).toEqual([1, 0, 0, 2, 2]);
  });
});

it('answers for each photograph once, with a car that is there or a reason, whatever the order of the files', () => {
  const photo = fc.record({
    name: fc.oneof(fc.string(), fc.constantFrom('A-1.jpg', 'B-2 x.png', '3.jpg', 'IMG_1.heic')),
    takenAt: fc.option(fc.integer({ min: 0, max: 4000 }).map(at)),
  });
  const numbers = fc.uniqueArray(fc.oneof(fc.string(), fc.constantFrom('A-1', 'B-2', '3')), { maxLength: 6 });
  fc.assert(
    fc.property(fc.array(photo, { maxLength: 30 }), numbers, (photos, cars) => {
      const deals = dealPhotos(photos, cars);
      expect(deals).toHaveLength(photos.length);
      for (const { car, by, reason, doubtful } of deals) {
        if (car === null) expect([by, doubtful, reason === null]).toEqual([null, true, false]);
        else {
          expect(cars[car]).toBeDefined();
          expect(doubtful).toBe(by === 'time');
        }
      }
      // Of the photographs dealt by time, those of one car were taken before those of the next.
      const byTime = photos
        .flatMap(({ takenAt }, i) =>
          deals[i]!.by === 'time' ? [{ takenAt: takenAt!, car: deals[i]!.car! }] : [],
        )
        .sort((a, b) => a.car - b.car || (a.takenAt < b.takenAt ? -1 : 1));
      expect(byTime.map(({ takenAt }) => takenAt)).toEqual(byTime.map(({ takenAt }) => takenAt).sort());
    }),
  );
});
