import { BroadcastChannel } from 'node:worker_threads';
import { expect, it, onTestFinished } from 'vitest';
import { newCollectionService, refusalOf } from '../../../helpers/api.ts';
import { heicFile } from '../../../helpers/pictures/pictures.ts';

const heic = (bytes: Uint8Array) => new File([new Uint8Array(bytes)], 'IMG_1.HEIC');

const worker = (name: string) => new URL(`../../../helpers/hooks/${name}`, import.meta.url);

it('calls are answered while a HEIC photograph is being decoded, and one cut short holds up no other', async () => {
  const { session, api } = await newCollectionService();
  const { ids } = await api.cars.create({ lotId: null, cars: [{}] });
  session.options.workers = { heic: worker('held-heic-worker.ts') };
  const channel = new BroadcastChannel('held HEIC');
  onTestFinished(() => channel.close());
  const begun = () =>
    new Promise<void>(resolve => {
      channel.onmessage = () => resolve();
    });
  const order: string[] = [];
  const add = (bytes: Uint8Array, what: string) =>
    api.photos.add({ carId: ids[0]!, files: [heic(bytes)] }).finally(() => order.push(what));
  const first = begun();
  const cut = refusalOf(add(heicFile('turned').subarray(0, 900), 'the cut one'));
  await first;
  const whole = add(heicFile('turned'), 'the whole one');
  expect(await api.cars.list({})).toMatchObject([{ photoCount: 0 }]);
  order.push('the list');
  const second = begun();
  channel.postMessage('go on');
  expect((await cut).message).toMatch(/damaged or cut short/);
  await second;
  channel.postMessage('go on');
  expect((await whole).added).toMatchObject([{ width: 240, height: 320 }]);
  expect(order).toEqual(['the list', 'the cut one', 'the whole one']);
});

it('a decoder that does not start is no fault of the photograph', async () => {
  const { session, api } = await newCollectionService();
  const { ids } = await api.cars.create({ lotId: null, cars: [{}] });
  session.options.workers = { heic: worker('nowhere.ts') };
  const files = [heic(heicFile('turned'))];
  const { message } = await refusalOf(api.photos.add({ carId: ids[0]!, files }));
  expect(message).not.toMatch(/photograph/);
  session.options.workers = {};
  expect((await api.photos.add({ carId: ids[0]!, files })).added).toHaveLength(1);
});
