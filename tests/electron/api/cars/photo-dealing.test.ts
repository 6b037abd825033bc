import { expect, it } from 'vitest';
import { newCollectionService, refusalOf } from '../../../helpers/api.ts';
import { heicFile, picture } from '../../../helpers/pictures/pictures.ts';

const file = (name: string, bytes: Uint8Array) => new File([new Uint8Array(bytes)], name);

it('photographs of a lot are proposed, attached only when the owner says so, and taken back by one undo', async () => {
  const { api } = await newCollectionService();
  const { id: lotId } = await api.lots.create({ name: 'Loft', currency: 'USD' });
  const numbers = ['Q-1', 'Q-2', 'Q-3'];
  const { ids } = await api.cars.create({
    lotId,
    cars: numbers.map(inventoryNumber => ({ inventoryNumber })),
  });
  const plain = await picture('png');
  const proposal = await api.photos.proposeDealing({
    lotId,
    files: [
      file('IMG_0003.HEIC', heicFile('wide-colours')),
      file('IMG_0001.HEIC', heicFile('turned')),
      file('IMG_0002.HEIC', heicFile('mirrored')),
      file('q2 base.png', plain),
      file('again.png', plain),
      file('broken.heic', heicFile('turned').subarray(0, 900)),
    ],
  });
  expect(proposal.photos.map(({ name, carId, doubtful }) => [name, carId, doubtful])).toEqual([
    ['IMG_0003.HEIC', ids[2], true],
    ['IMG_0001.HEIC', ids[0], true],
    ['IMG_0002.HEIC', ids[0], true],
    ['q2 base.png', ids[1], false],
  ]);
  expect(proposal.photos[1]!.takenAt).toBe('2024-05-31T17:45:00');
  expect(proposal.refused).toEqual([
    { name: 'broken.heic', reason: expect.stringMatching(/damaged or cut short/) },
    { name: 'again.png', reason: 'It is the same picture as q2 base.png.' },
  ]);
  const counts = async () => (await api.cars.list({ lotId })).map(({ photoCount }) => photoCount);
  expect(await counts()).toEqual([0, 0, 0]);
  const photos = proposal.photos.map(({ sha256, carId }) => ({ sha256, carId: carId! }));
  expect(await api.photos.dealOut({ lotId, photos })).toBe(4);
  expect(await counts()).toEqual([2, 1, 1]);
  expect((await api.cars.get({ id: ids[0]! })).photos[0]).toMatchObject({
    takenOn: '2024-05-31',
    height: 320,
  });
  await api.collection.undo();
  expect(await counts()).toEqual([0, 0, 0]);
  const twice = [photos[0]!, { ...photos[0]!, carId: ids[1]! }];
  expect((await refusalOf(api.photos.dealOut({ lotId, photos: twice }))).message).toMatch(/one car only/);
  const { ids: others } = await api.cars.create({ lotId: null, cars: [{}] });
  const stray = [{ ...photos[0]!, carId: others[0]! }];
  expect((await refusalOf(api.photos.dealOut({ lotId, photos: stray }))).message).toMatch(
    /no longer in Loft/,
  );
  expect(await counts()).toEqual([0, 0, 0]);
});
