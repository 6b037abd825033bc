import { expect, it, vi } from 'vitest';
import { carFigures } from '../../../../electron/api/figures/figures.ts';
import { marketToday } from '../../../../electron/api/figures/market.ts';
import { recommendCar } from '../../../../valuation/decision/recommend-car.ts';
import { addReference, newCollectionService } from '../../../helpers/api.ts';

vi.mock('../../../../valuation/decision/recommend-car.ts', { spy: true });

/** Cars of which no two are alike. */
const manyCars = async (count: number) => {
  const service = await newCollectionService();
  const { variations } = await addReference(service.api);
  const { ids } = await service.api.cars.create({
    lotId: null,
    cars: Array.from({ length: count }, (_, i) => ({
      variationId: variations.emberTwin,
      grade: 5,
      ownWorth: { low: 100 + i, mid: 200 + i, high: 300 + i },
    })),
  });
  vi.mocked(recommendCar).mockClear();
  return { ...service, ids };
};

it('answers a call that comes after Home while Home is being worked out, and works nothing out twice', async () => {
  const { api } = await manyCars(600);
  const answered: string[] = [];
  const note = (what: string) => () => answered.push(what);
  await Promise.all([
    api.collection.home().then(note('home')),
    api.collection.home().then(note('home')),
    api.collection.summary().then(note('summary')),
    api.sales.list({}).then(note('sales')),
  ]);
  expect(answered.slice(2)).toEqual(['home', 'home']);
  expect(vi.mocked(recommendCar)).toHaveBeenCalledTimes(600);
});

it('works out again what an action touched meanwhile, and leaves out what it removed', async () => {
  const { api, session, ids } = await manyCars(300);
  const [first, second] = ids as [number, number];
  const running = carFigures(
    session,
    ids.map(id => ({ id })),
  );
  await api.cars.update({ changes: [{ id: first, patch: { grade: 9 } }] });
  await api.cars.remove({ ids: [second] });
  const figures = await running;
  expect(figures.size === 299 || figures.size === 300).toBe(true);
  const after = await carFigures(
    session,
    ids.map(id => ({ id })),
  );
  expect(after.size).toBe(299);
  const mid = (id: number) => after.get(id)!.worths.asFound!.mid;
  expect(mid(first)).toBeGreaterThan(mid(ids[2]!));
});

it('ends with a sentence where the collection is closed meanwhile', async () => {
  const { api, session } = await manyCars(300);
  const home = api.collection.home().catch((error: Error) => error.message);
  await Promise.resolve();
  await session.close();
  expect(typeof (await home)).toBe('string');
});

it('leaves the turn to others many times while the market is fitted', async () => {
  const { api, session } = await newCollectionService();
  await addReference(api);
  let turns = 0;
  const count = () => {
    turns += 1;
    next = setImmediate(count);
  };
  let next = setImmediate(count);
  await marketToday(session);
  clearImmediate(next);
  expect(turns).toBeGreaterThan(20);
});
