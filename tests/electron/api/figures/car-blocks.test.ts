import { describe, expect, it } from 'vitest';
import type { BriefCar } from '../../../../db/records/cars/brief-cars.ts';
import { homeView } from '../../../../electron/api/collection/home.ts';
import { blocksAgain, blocksOf, heldPieces } from '../../../../electron/api/figures/car-blocks.ts';
import { createCache } from '../../../../electron/api/session/cache.ts';
import type { Session } from '../../../../electron/api/session/session.ts';
import { addReference, newCollectionService } from '../../../helpers/api.ts';
import { seededRandom } from '../../../helpers/random.ts';

const carsOf = (ids: readonly number[]) =>
  new Map(ids.toSorted((a, b) => a - b).map(id => [id, { id } as BriefCar]));
const upTo = (count: number) => Array.from({ length: count }, (_, i) => i + 1);

describe('cars in blocks', () => {
  it('are the same after cars came and went as if they were dealt out anew, and other blocks stay as they are', () => {
    const before = carsOf(upTo(2000));
    const touched = [3, 4, 1500, 2001, 2600];
    const after = carsOf([...upTo(2000).filter(id => id !== 3 && id !== 1500), 2001, 2600]);
    const blocks = blocksOf(before);
    const again = blocksAgain(blocks, after, touched);
    expect([...again]).toEqual([...blocksOf(after)]);
    expect([...again].filter(([number, block]) => blocks.get(number) === block)).toHaveLength(1);
    const only = carsOf([2600]);
    expect([...blocksAgain(again, only, [...after.keys()])]).toEqual([...blocksOf(only)]);
  });

  it('are worked out again only where their block or what it follows from is another, and not held over an action', async () => {
    const cache = createCache();
    const session = { cache } as Session;
    const pieces = heldPieces<number>();
    const made: number[][] = [];
    const sums = (blocks: readonly (readonly BriefCar[])[], from: readonly unknown[], meanwhile = () => {}) =>
      pieces(session, blocks, from, async missing => {
        made.push(missing.map(block => block.length));
        meanwhile();
        return block => block.reduce((sum, { id }) => sum + id, 0);
      });
    const cars = carsOf(upTo(600));
    const blocks = blocksOf(cars);
    const all = [...blocks.values()];
    const act = () => cache.changed({ sources: [], cars: new Set([1]) });
    const sum = (list: number[]) => list.reduce((a, b) => a + b, 0);
    expect(sum(await sums(all, ['market'], act))).toBe(180_300);
    expect(sum(await sums(all, ['market']))).toBe(180_300);
    expect(sum(await sums(all, ['market']))).toBe(180_300);
    cars.delete(1);
    expect(sum(await sums([...blocksAgain(blocks, cars, [1]).values()], ['market']))).toBe(180_299);
    expect(sum(await sums(all, ['another']))).toBe(180_300);
    expect(made).toEqual([[511, 89], [511, 89], [510], [511, 89]]);
  });
});

it('Home is after edits drawn at random, undone and done again, what a session finds that remembers nothing', async () => {
  const { session, api } = await newCollectionService();
  const { variations } = await addReference(api);
  const kinds = Object.values(variations);
  const { uniform } = seededRandom(20_261);
  const below = (count: number) => Math.floor(uniform() * count);
  const lots = [
    (await api.lots.create({ name: 'Attic', boughtOn: '2025-02-03', currency: 'USD', costs: [] })).id,
    (
      await api.lots.create({
        name: 'Fair',
        boughtOn: '2025-03-03',
        currency: 'USD',
        costs: [{ kind: 'price', minor: 90_000 }],
      })
    ).id,
  ];
  const { ids } = await api.cars.create({
    lotId: lots[0]!,
    cars: upTo(700).map(i => ({
      variationId: kinds[i % kinds.length]!,
      grade: 3 + (i % 4),
      ownWorth: { low: 800, mid: 1000 + (i % 9), high: 1300 },
    })),
  });
  const car = () => ids[below(ids.length)]!;
  const update = (patch: Parameters<typeof api.cars.update>[0]['changes'][number]['patch']) =>
    api.cars.update({ changes: [{ id: car(), patch }] });
  const kindsOfEdit = [
    () => update({ grade: 1 + below(19) / 2 }),
    () => update({ ownWorth: { low: 500, mid: 600 + below(900), high: 1600 } }),
    () => update({ lotId: lots[below(2)]! }),
    () => update({ wornColour: ['ember', 'Ember', 'Moss'][below(3)]! }),
    () => update({ finishState: 'restored' }),
    () => update({ variationId: kinds[below(kinds.length)]! }),
    () => api.cars.remove({ ids: [ids.splice(below(ids.length), 1)[0]!] }),
  ];
  const compare = async (what: string) => {
    const fresh = { ...session, collection: session.collection, cache: createCache() };
    expect(await homeView(session), what).toEqual(await homeView(fresh));
  };
  await homeView(session);
  for (let i = 0; i < 10; i++) {
    await kindsOfEdit[i % kindsOfEdit.length]!();
    await homeView(session);
    if (i % 3 === 0) {
      await api.collection.undo();
      await homeView(session);
      await api.collection.redo();
    }
    await compare(`after edit ${i}`);
  }
});
