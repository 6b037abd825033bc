import { expect, it } from 'vitest';
import { newCollectionService } from '../../../helpers/api.ts';
import { picture } from '../../../helpers/pictures/pictures.ts';

it('a car’s history holds its plan, its decision and its photographs, and those of no other car', async () => {
  const { api } = await newCollectionService();
  const { ids } = await api.cars.create({
    lotId: null,
    cars: [{ inventoryNumber: 'H-1' }, { inventoryNumber: 'H-2' }],
  });
  const [carId = 0, other = 0] = ids;
  const hours = { low: 1, likely: 2, high: 3 };
  await api.decisions.savePlan({ carId, targetGrade: 8, hours });
  await api.decisions.record({ carId, choice: 'leave' });
  await api.photos.add({ carId, files: [new File([new Uint8Array(await picture('jpeg'))], 'a.jpg')] });
  await api.decisions.record({ carId: other, choice: 'donor' });
  const labels = (await api.cars.get({ id: carId })).history.map(entry => entry.label);
  expect(labels).toEqual([
    'Added a photograph to H-1',
    'Decided to leave H-1',
    'Made the plan of H-1',
    'Added 2 cars',
  ]);
});
