import { describe, expect, it } from 'vitest';
import { tableHashes } from '../../../../db/backup/manifest.ts';
import { addReference, newCollectionService, refusalOf } from '../../../helpers/api.ts';

describe('what happened to a car', () => {
  it('is a check with its cause, with condition and value before and after, and one undo', async () => {
    const { api, session } = await newCollectionService();
    const { variations } = await addReference(api);
    const { ids } = await api.cars.create({
      lotId: null,
      cars: [{ inventoryNumber: 'E-1', variationId: variations.mossTwin, grade: 8 }],
    });
    const id = ids[0]!;
    await api.cars.saveCheck({
      carId: id,
      checkedOn: '2026-03-01',
      grade: 8,
      parts: [{ part: 'glazing', grade: 9, originality: 'original' }],
    });
    const hashes = () => {
      const { change: _, change_row: __, ...rest } = tableHashes(session.collection!.read.sqlite);
      return rest;
    };
    const before = hashes();
    const worth = (await api.cars.get({ id })).worths.asFound!.mid;
    await api.cars.recordEvent({
      carId: id,
      happenedOn: '2026-03-10',
      cause: 'dropped',
      note: 'from the shelf',
      grade: 6.5,
    });
    const car = await api.cars.get({ id });
    expect(car.grade).toBe(6.5);
    expect(car.checks[0]).toMatchObject({ checkedOn: '2026-03-10', notes: 'dropped: from the shelf' });
    expect(car.checks[0]?.parts).toMatchObject([{ part: 'glazing', grade: 9 }]);
    const [event] = car.events;
    expect(event).toMatchObject({
      cause: 'dropped',
      before: 8,
      after: 6.5,
      worthBefore: worth,
      currency: 'USD',
    });
    expect(event!.worthAfter).toBe(car.worths.asFound!.mid);
    expect(event!.worthAfter!).toBeLessThan(worth);
    expect(car.history[0]?.label).toBe('Noted for E-1: dropped');
    await api.collection.undo();
    expect(hashes()).toEqual(before);
  });

  it('is refused of a car that is sold', async () => {
    const { api } = await newCollectionService();
    const { ids } = await api.cars.create({ lotId: null, cars: [{ inventoryNumber: 'E-1' }] });
    const carId = ids[0]!;
    await api.cars.dispose({ carId, soldOn: '2026-03-01', proceeds: 100, currency: 'USD' });
    expect(
      (await refusalOf(api.cars.recordEvent({ carId, happenedOn: '2026-03-02', cause: 'dropped' }))).message,
    ).toBe('E-1 has been sold.');
  });
});
