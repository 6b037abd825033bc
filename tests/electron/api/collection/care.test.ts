import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addReference, newCollectionService, newService, refusalOf, resultOf } from '../../../helpers/api.ts';
import { picture } from '../../../helpers/pictures/pictures.ts';

describe('backups', () => {
  it('restore what was, keep what is, and open it again', async () => {
    const { api, clock } = await newCollectionService();
    await api.lots.create({ name: 'Before', currency: 'USD' });
    const backup = await api.collection.backUp();
    expect((await api.collection.summary()).lastBackup).toEqual(backup);
    clock.now = new Date(2026, 2, 14, 13);
    await api.lots.create({ name: 'After', currency: 'USD' });
    const state = await api.collection.restore({ name: backup.name });
    expect(state.open).toBe(true);
    expect(state.notices.join(' ')).toContain('The state from before is saved');
    expect((await api.lots.list()).map(lot => lot.name)).toEqual(['Before']);
    const kept = (await api.collection.backups()).find(({ name }) => name !== backup.name);
    await api.collection.restore({ name: kept?.name ?? '' });
    expect((await api.lots.list()).map(lot => lot.name).sort()).toEqual(['After', 'Before']);
  });

  it('are named as listed, and nothing else', async () => {
    const { api } = await newCollectionService();
    await api.lots.create({ name: 'Loft', currency: 'USD' });
    for (const name of ['nothing', '../collection.sqlite', '..'])
      expect(await refusalOf(api.collection.restore({ name }))).toMatchObject({ code: 'REFUSED' });
    expect((await api.lots.list()).map(lot => lot.name)).toEqual(['Loft']);
  });

  it('are checked with the rest, step by step', async () => {
    const { api } = await newCollectionService();
    await api.collection.backUp();
    const steps: number[] = [];
    for await (const step of await api.collection.check())
      if (step.type === 'progress') steps.push(step.done / step.total);
      else expect(step.result.filter(finding => finding.level !== 'ok')).toEqual([]);
    expect(steps.at(-1)).toBe(1);
  });
});

describe('photographs', () => {
  it('are one action for many, and refuse bad ones by name', async () => {
    const { api } = await newCollectionService();
    const { ids } = await api.cars.create({ lotId: null, cars: [{}] });
    const carId = ids[0] ?? 0;
    const good = new File([new Uint8Array(await picture('jpeg'))], 'good.jpg');
    const bad = new File(['<svg xmlns="http://www.w3.org/2000/svg"/>'], 'bad.svg');
    const refusal = await refusalOf(api.photos.add({ carId, files: [bad, bad] }));
    expect(refusal).toMatchObject({ code: 'REFUSED', data: { reason: 'photo-refused' } });
    expect(refusal.message).toMatch(/^bad\.svg: /);
    expect((await api.cars.get({ id: carId })).photos).toEqual([]);
    const some = await api.photos.add({ carId, files: [bad, good] });
    expect(some.refused).toEqual([{ name: 'bad.svg', reason: expect.stringMatching(/drawing \(SVG\)/) }]);
    expect((await api.cars.get({ id: carId })).photos).toEqual(some.added);
    expect(some.added).toHaveLength(1);
    await api.collection.undo();
    expect((await api.cars.get({ id: carId })).photos).toEqual([]);
    const other = new File([new Uint8Array(await picture('png'))], 'b.png');
    const { added } = await api.photos.add({ carId, files: [good, other], view: 'side', state: 'as found' });
    await api.photos.update({ id: added[1]?.id ?? 0, caption: 'left', takenOn: '2026-03-01', position: -1 });
    const page = await api.cars.get({ id: carId });
    expect(page.photos.map(({ id, caption }) => [id, caption])).toEqual([
      [added[1]?.id, 'left'],
      [added[0]?.id, ''],
    ]);
    expect((await api.cars.list({}))[0]).toMatchObject({ photoCount: 2, photo: added[1]?.sha256 });
    const order = added.map(photo => photo.id);
    await api.photos.reorder({ ids: order });
    expect((await api.cars.get({ id: carId })).photos.map(photo => photo.id)).toEqual(order);
    await api.collection.undo();
    expect((await api.cars.get({ id: carId })).photos.map(photo => photo.id)).toEqual(order.toReversed());
    expect(await refusalOf(api.photos.reorder({ ids: [...order, 999] }))).toMatchObject({
      code: 'NOT_FOUND',
    });
    await api.photos.remove({ id: added[1]?.id ?? 0 });
    expect((await api.cars.list({}))[0]).toMatchObject({ photoCount: 1, photo: added[0]?.sha256 });
    await api.collection.undo();
    const back = await api.photos.read({ sha256: added[1]?.sha256 ?? '', size: 'original' });
    expect(back.type).toBe('image/png');
  });

  it('hang on a variation, as an example to compare cars with', async () => {
    const { api } = await newCollectionService();
    const { variations } = await addReference(api);
    const files = [new File([new Uint8Array(await picture('jpeg'))], 'a.jpg')];
    const { added } = await api.photos.add({ variationId: variations.emberTwin, files });
    expect(await api.photos.ofVariation({ id: variations.emberTwin })).toEqual(added);
    expect(await api.photos.ofVariation({ id: variations.emberBar })).toEqual([]);
  });

  it('belong to one thing that is there', async () => {
    const { api } = await newCollectionService();
    const files = [new File([new Uint8Array(await picture('jpeg'))], 'a.jpg')];
    expect((await refusalOf(api.photos.add({ files }))).message).toContain('one car, one lot or one');
    expect(await refusalOf(api.photos.add({ carId: 5, files }))).toMatchObject({ code: 'NOT_FOUND' });
    expect(await refusalOf(api.photos.add({ lotId: 5, files }))).toMatchObject({ code: 'NOT_FOUND' });
    const gone = await refusalOf(api.photos.read({ sha256: 'a'.repeat(64), size: 'screen' }));
    expect(gone).toMatchObject({ code: 'REFUSED', data: { reason: 'photo-missing' } });
  });
});

describe('searching', () => {
  it('finds every kind by the beginnings of words, with where to go', async () => {
    const { api } = await newCollectionService();
    const { dovetail, variations } = await addReference(api);
    const { id: lotId } = await api.lots.create({ name: 'Dovetailing find', currency: 'USD' });
    const { ids } = await api.cars.create({ lotId, cars: [{ variationId: variations.plumGt, grade: 7 }] });
    const hits = await api.collection.search({ text: 'dovetail', limit: 12 });
    expect(new Set(hits.map(hit => hit.kind))).toEqual(
      new Set(['car', 'lot', 'casting', 'variation', 'sale record']),
    );
    expect(hits.length).toBeLessThanOrEqual(12);
    expect(hits.find(hit => hit.kind === 'car')).toEqual({
      kind: 'car',
      id: ids[0],
      title: '0001',
      detail: 'Dovetail · Plum, twin lamps · C7',
      to: `/cars/${ids[0]}`,
    });
    expect(hits.find(hit => hit.kind === 'casting')).toMatchObject({
      title: 'Dovetail',
      to: `/reference/${dovetail}`,
    });
    expect(hits.find(hit => hit.kind === 'lot')).toMatchObject({ to: `/lots/${lotId}` });
    expect(await api.collection.search({ text: '"*' })).toEqual([]);
  });
});

describe('home', () => {
  it('adds up what reports add up, and says what to do next', async () => {
    const { api } = await newCollectionService();
    const empty = await api.collection.home();
    expect(empty.totals).toMatchObject({ cars: 0, valued: 0, asFound: { low: 0, mid: 0, high: 0 } });
    // Its first steps lead on instead.
    expect(empty.next).toEqual([]);
    const { variations } = await addReference(api);
    await api.cars.create({
      lotId: null,
      cars: [
        { variationId: variations.emberTwin, grade: 8 },
        { variationId: variations.skyOxbow, grade: 3 },
        { asWritten: { casting: 'Whoosh' } },
      ],
    });
    const home = await api.collection.home();
    const mids = (await api.cars.list({})).map(row => row.worths.asFound?.mid ?? 0);
    expect(home.totals).toMatchObject({ cars: 3, valued: 2 });
    // The total is what the cars are expected to bring, which is more than the sum of their medians.
    const expected = (await api.cars.list({})).reduce(
      (sum, { worths: { asFound } }) =>
        sum + (asFound ? Math.exp(asFound.logMean + asFound.logSd ** 2 / 2) : 0),
      0,
    );
    expect(home.totals.asFound.mid).toBe(Math.round(expected));
    expect(home.totals.asFound.mid).toBeGreaterThan(mids.reduce((sum, mid) => sum + mid, 0));
    expect(home.bySeries).toEqual([
      { name: 'Slipwinds', cars: 2, worth: home.totals.asFound.mid },
      { name: null, cars: 1, worth: null },
    ]);
    expect(home.byGrade.map(({ grade, cars }) => [grade, cars])).toEqual([
      [8, 1],
      [3, 1],
      [null, 1],
    ]);
    expect(home.next).toContainEqual({
      kind: 'grade',
      to: '/cars?show=ungraded',
      count: 1,
    });
    expect(home.best.map(row => row.worths.asFound?.mid)).toEqual(mids.filter(Boolean).sort((a, b) => b - a));
  });
});

describe('the demo', () => {
  it('leaves nothing when its making is stopped', async () => {
    const { api, dir } = newService();
    const controller = new AbortController();
    const run = async () => {
      const stream = await api.collection.openDemo(undefined, { signal: controller.signal });
      for await (const step of stream) if (step.type === 'progress') controller.abort();
    };
    await expect(run()).rejects.toThrow();
    expect(await api.collection.state()).toMatchObject({ open: false });
    for (const name of ['demo', 'demo.part']) expect(existsSync(join(dir, name))).toBe(false);
  });

  it('does not write among other things', async () => {
    const { api, dir } = newService();
    mkdirSync(join(dir, 'demo'));
    writeFileSync(join(dir, 'demo', 'letter.txt'), 'Dear Aunt');
    const refusal = await refusalOf(resultOf(await api.collection.openDemo()));
    expect(refusal.message).toContain('holds other things already');
  });
});
