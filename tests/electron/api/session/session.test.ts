import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newCollectionService, newService, refusalOf } from '../../../helpers/api.ts';

describe('a service without a collection', () => {
  it('says so, and where one would go', async () => {
    const { api, dir } = newService();
    expect(await api.collection.state()).toEqual({
      open: false,
      dir: null,
      defaultDir: join(dir, 'collection'),
      demoDir: join(dir, 'demo'),
      host: 'command line',
      version: '0.0.0',
      notices: [],
      readOnly: false,
      readOnlyBecause: null,
      problem: null,
    });
  });

  it('refuses everything that needs one, in words', async () => {
    const { api } = newService();
    for (const call of [api.lots.list(), api.cars.list({}), api.collection.home(), api.sales.list({})])
      expect(await refusalOf(call)).toMatchObject({
        code: 'NO_COLLECTION',
        message: 'No collection is open. Open one, or start a new one.',
      });
  });

  it('refuses a folder that holds none', async () => {
    const { api, dir } = newService();
    const refusal = await refusalOf(api.collection.open({ dir: join(dir, 'nowhere') }));
    expect(refusal).toMatchObject({ code: 'REFUSED', data: { reason: 'missing' } });
  });
});

describe('creating and opening', () => {
  it('creates in the default folder and opens it', async () => {
    const { api, dir } = newService();
    const state = await api.collection.create({ reportingCurrency: 'JPY', owner: 'E. Tarrow' });
    expect(state).toMatchObject({ open: true, dir: join(dir, 'collection') });
    expect(await api.collection.summary()).toMatchObject({
      reportingCurrency: 'JPY',
      owner: 'E. Tarrow',
      isDemo: false,
      today: '2026-03-14',
      counts: { cars: 0, lots: 0, castings: 0, variations: 0, saleRecords: 0, photographs: 0 },
    });
  });

  it('does not write over a collection', async () => {
    const { api } = await newCollectionService();
    await api.lots.create({ name: 'Loft', currency: 'USD' });
    expect(await refusalOf(api.collection.create({}))).toMatchObject({ data: { reason: 'exists' } });
    expect((await api.lots.list()).map(lot => lot.name)).toEqual(['Loft']);
  });

  it('keeps the open one open when another cannot be opened', async () => {
    const { api, dir } = await newCollectionService();
    await refusalOf(api.collection.open({ dir: join(dir, 'nowhere') }));
    expect(await api.collection.state()).toMatchObject({ open: true, dir: join(dir, 'collection') });
  });

  it('keeps the open one open when another is damaged', async () => {
    const { api, dir } = await newCollectionService();
    mkdirSync(join(dir, 'damaged'));
    writeFileSync(join(dir, 'damaged', 'collection.sqlite'), 'no database');
    const refusal = await refusalOf(api.collection.open({ dir: join(dir, 'damaged') }));
    expect(refusal).toMatchObject({ code: 'STORAGE', data: { reason: 'damaged' } });
    await api.lots.create({ name: 'Loft', currency: 'USD' });
    expect(await api.lots.list()).toHaveLength(1);
  });

  it('opens and starts one after the other when asked for both at once', async () => {
    const { api, dir } = await newCollectionService();
    const states = await Promise.all([
      api.collection.create({ dir: join(dir, 'b') }),
      api.collection.create({ dir: join(dir, 'c') }),
      api.collection.open({ dir: join(dir, 'collection') }),
    ]);
    expect(states.every(state => state.open)).toBe(true);
    expect(await api.collection.state()).toMatchObject({ dir: join(dir, 'collection') });
    await api.collection.open({ dir: join(dir, 'b') });
  });

  it('makes the day’s backup while it stays open', async () => {
    const { api, clock } = await newCollectionService();
    await api.lots.create({ name: 'Monday', currency: 'USD' });
    expect(await api.collection.backups()).toEqual([]);
    clock.now = new Date(2026, 2, 15, 12);
    await api.lots.create({ name: 'Tuesday', currency: 'USD' });
    await api.lots.create({ name: 'Tuesday again', currency: 'USD' });
    const daily = await api.collection.backups();
    expect(daily.map(backup => backup.reason)).toEqual(['daily']);
    clock.now = new Date(2026, 2, 16, 12);
    await api.lots.create({ name: 'Wednesday', currency: 'USD' });
    expect(await api.collection.backups()).toHaveLength(2);
  });

  it('shows nothing of the one before once another is open', async () => {
    const { api, dir } = await newCollectionService();
    await api.lots.create({ name: 'Loft', currency: 'USD' });
    await api.reference.saveCasting({ maker: 'Quillon Toys', series: 'Slipwinds', name: 'Dovetail' });
    expect(await api.reference.castings()).toHaveLength(1);
    await api.collection.create({ dir: join(dir, 'second') });
    expect(await api.lots.list()).toEqual([]);
    expect(await api.reference.castings()).toEqual([]);
    await api.collection.open({ dir: join(dir, 'collection') });
    expect(await api.lots.list()).toHaveLength(1);
  });

  it('follows the clock for today', async () => {
    const { api, clock } = await newCollectionService();
    clock.now = new Date(2027, 0, 1, 0, 5);
    expect((await api.collection.summary()).today).toBe('2027-01-01');
  });
});

describe('settings', () => {
  it('changes name and owner as one action that can be undone', async () => {
    const { api } = await newCollectionService();
    await api.collection.saveSettings({ name: 'The drawer', owner: 'Owner' });
    expect(await api.collection.summary()).toMatchObject({ name: 'The drawer', owner: 'Owner' });
    expect(await api.collection.undo()).toEqual({ label: 'Changed the settings' });
    expect(await api.collection.summary()).toMatchObject({ name: '', owner: '' });
    expect(await api.collection.redo()).toEqual({ label: 'Changed the settings' });
    expect(await api.collection.redo()).toBeNull();
  });

  it('changes the reporting currency only while nothing is kept in it', async () => {
    const { api } = await newCollectionService();
    expect(await api.collection.saveSettings({ reportingCurrency: 'EUR' })).toMatchObject({
      reportingCurrency: 'EUR',
    });
    await api.collection.saveRate({ currency: 'USD', on: '2026-01-01', rate: '0.86' });
    const refusal = await refusalOf(api.collection.saveSettings({ reportingCurrency: 'GBP' }));
    expect(refusal.message).toContain('exchange rates');
    expect((await api.collection.summary()).reportingCurrency).toBe('EUR');
  });

  it('keeps rates to nine decimals, one a day, and none of the reporting currency', async () => {
    const { api } = await newCollectionService();
    await api.collection.saveRate({ currency: 'GBP', on: '2026-01-01', rate: '1.273500001' });
    await api.collection.saveRate({ currency: 'GBP', on: '2026-01-01', rate: '1.30' });
    await api.collection.saveRate({ currency: 'GBP', on: '2026-02-01', rate: '1.273500001' });
    expect((await api.collection.rates()).map(({ on, rate }) => [on, rate])).toEqual([
      ['2026-02-01', '1.273500001'],
      ['2026-01-01', '1.3'],
    ]);
    const own = await refusalOf(api.collection.saveRate({ currency: 'USD', on: '2026-01-01', rate: '1' }));
    expect(own.message).toContain('reporting currency itself');
  });
});

describe('assumptions', () => {
  it('starts from the starting points and keeps every version', async () => {
    const { api } = await newCollectionService();
    const start = await api.collection.assumptions();
    expect(start).toMatchObject({ version: 0, untouched: true, versions: [] });
    const body = { ...start.body, halfLifeYears: 5 };
    const saved = await api.collection.saveAssumptions({ body, note: 'Younger sales count more' });
    expect(saved).toMatchObject({ version: 1, untouched: false, note: 'Younger sales count more' });
    expect(saved.body).toEqual(body);
    await api.collection.saveAssumptions({ body: start.body });
    expect((await api.collection.assumptions()).versions.map(({ version }) => version)).toEqual([2, 1]);
  });

  it('refuses figures outside sense, with their place', async () => {
    const { api } = await newCollectionService();
    const { body } = await api.collection.assumptions();
    const falling = { ...body.gradeMultipliers, original: [...body.gradeMultipliers.original].reverse() };
    const refusal = await refusalOf(
      api.collection.saveAssumptions({ body: { ...body, gradeMultipliers: falling, halfLifeYears: -1 } }),
    );
    expect(refusal).toMatchObject({ code: 'REFUSED', data: { reason: 'assumptions' } });
    expect(refusal.message).toContain('gradeMultipliers › original: multipliers must rise with the grade');
    expect(refusal.message).toContain('halfLifeYears');
    expect((await api.collection.assumptions()).untouched).toBe(true);
  });
});
