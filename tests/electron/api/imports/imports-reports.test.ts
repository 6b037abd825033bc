import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { fitMarketInTurns } from '../../../../valuation/market/fit-market.ts';
import { type Api, addReference, newCollectionService, refusalOf, resultOf } from '../../../helpers/api.ts';
import { picture } from '../../../helpers/pictures/pictures.ts';

vi.mock('../../../../valuation/market/fit-market.ts', async original => {
  const engine = await original<typeof import('../../../../valuation/market/fit-market.ts')>();
  return { ...engine, fitMarketInTurns: vi.fn(engine.fitMarketInTurns) };
});

const csv = (text: string, name = 'list.csv') => new File([text], name, { type: 'text/csv' });

const reported = async (api: Api, input: Parameters<Api['reports']['make']>[0]) => {
  const result = await resultOf(await api.reports.make(input));
  const file = await api.reports.file({ token: result.token });
  expect(file.size).toBe(result.bytes);
  return { ...result, content: Buffer.from(await file.arrayBuffer()) };
};

const pdfText = (dir: string, content: Buffer): string => {
  const path = join(dir, 'report.pdf');
  writeFileSync(path, content);
  return execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
};

describe('importing', () => {
  it('previews without taking anything, then takes, shares the price and says what was not taken', async () => {
    const { api } = await newCollectionService();
    const { variations } = await addReference(api);
    const file = csv(
      'Number;Casting;Color;rear_end;Condition\nA-1;Dovetail;Ember;twin lamps;C7.5\nA-2;Dovetail;Ruby;;6\nA-3;Dovetail;Moss;bar lamp;eleven\n',
    );
    const map = { Number: 'inventory_number' };
    const preview = await api.imports.preview({ as: 'lot', file, map });
    expect(preview).toMatchObject({
      format: 'csv',
      separator: ';',
      rows: 3,
      counts: { accepted: 3, rejected: 0, duplicates: 0, unidentified: 1 },
      notUnderstood: [{ column: 'Condition', text: 'eleven', field: 'grade', meaning: '', lines: [4] }],
    });
    expect((await api.collection.summary()).counts).toMatchObject({ cars: 0, lots: 0 });
    const lot = { name: 'Fair', currency: 'USD', costs: [{ kind: 'price' as const, minor: 999 }] };
    const result = await resultOf(await api.imports.run({ as: 'lot', file, map, lot }));
    expect(result).toMatchObject({ accepted: 3, rejected: [], unidentified: 1, lot: { name: 'Fair' } });
    const page = await api.lots.get({ id: result.lot?.id ?? 0 });
    expect(page.rows.map(row => [row.inventoryNumber, row.variationId, row.grade])).toEqual([
      ['A-1', variations.emberTwin, 7.5],
      ['A-2', null, 6],
      ['A-3', variations.mossBar, null],
    ]);
    expect(page.shared).toBe(999);
    const again = await resultOf(await api.imports.run({ as: 'lot', file, map, lot }));
    expect(again).toMatchObject({ accepted: 0, duplicates: 3 });
  });

  it('shares what a list says of a purchase over its cars, although no figure was asked for before', async () => {
    const { api } = await newCollectionService();
    await addReference(api);
    const file = csv(
      'inventory_number,casting,colour,price_paid,bought_on,seller\nA-1,Dovetail,Ember,12.00,2024-05-04,Fair\nA-2,Dovetail,Ruby,,2024-05-04,Fair\n',
    );
    const input = { as: 'lot' as const, file, lot: { name: 'Tin', currency: 'USD' } };
    const result = await resultOf(await api.imports.run(input));
    expect(result).toMatchObject({ accepted: 2, rejected: [] });
    const lots = await Promise.all((result.lots ?? []).map(({ id }) => api.lots.get({ id })));
    expect(lots.map(({ shared }) => shared)).toEqual([1200]);
    expect(await resultOf(await api.imports.run(input))).toMatchObject({ accepted: 0, duplicates: 2 });
  });

  it('moves worths by imported sales at once, and back by undo', async () => {
    const { api } = await newCollectionService();
    const { variations } = await addReference(api);
    await api.cars.create({ lotId: null, cars: [{ variationId: variations.emberTwin, grade: 6 }] });
    const worth = async () => (await api.cars.list({}))[0]?.worths.asFound?.mid;
    const before = await worth();
    const file = csv(
      'sold_on,price,currency,casting,colour,rear_end,grade\n2026-01-05,310.00,USD,Dovetail,Ember,twin lamps,6\n',
    );
    expect(await resultOf(await api.imports.run({ as: 'sales', file }))).toMatchObject({ accepted: 1 });
    expect(await worth()).toBeGreaterThan(before ?? 0);
    await api.collection.undo();
    expect(await worth()).toBe(before);
  });

  it('takes a reference in, which typing then finds', async () => {
    const { api } = await newCollectionService();
    const file = csv(
      'maker,series,casting,release_name,release_year,colour,base_paint,rarity\nQuillon Toys,Slipwinds,Heron,Heron,1970,Saffron,rear quarter,scarce\n',
    );
    expect(await resultOf(await api.imports.run({ as: 'reference', file }))).toMatchObject({ accepted: 1 });
    expect(await api.reference.suggest({ text: 'her saff' })).toMatchObject([
      { kind: 'variation', label: 'Heron, Saffron', basePaint: 'rear quarter' },
    ]);
  });

  it('explains a file that is no table', async () => {
    const { api } = await newCollectionService();
    const refusal = await refusalOf(api.imports.preview({ as: 'lot', file: csv('') }));
    expect(refusal).toMatchObject({ code: 'REFUSED', data: { reason: 'file' } });
  });

  it('fits the market only where a price is to be shared out', async () => {
    const { api } = await newCollectionService();
    await addReference(api);
    const rows = csv('casting,grade\nDart,7\n');
    const fits = vi.mocked(fitMarketInTurns).mock.calls.length;
    await resultOf(await api.imports.run({ as: 'lot', file: rows, lot: { name: 'Free', currency: 'USD' } }));
    expect(vi.mocked(fitMarketInTurns).mock.calls.length).toBe(fits);
    const costs = [{ kind: 'price' as const, minor: 900 }];
    const lot = { name: 'Fair', currency: 'USD', costs };
    const { lot: made } = await resultOf(await api.imports.run({ as: 'lot', file: rows, lot }));
    expect(vi.mocked(fitMarketInTurns).mock.calls.length).toBe(fits + 1);
    // Cars that come later into a lot with a price share it too.
    const more = csv('casting,grade\nDart,3\n');
    await resultOf(await api.imports.run({ as: 'lot', file: more, lotId: made?.id ?? 0 }));
    expect((await api.lots.get({ id: made?.id ?? 0 })).shared).toBe(900);
  });

  it('changes nothing on a dry run', async () => {
    const { api } = await newCollectionService();
    const file = csv('casting,grade\nDart,7\n');
    const lot = { name: 'Fair', currency: 'USD' };
    const result = await resultOf(await api.imports.run({ as: 'lot', file, lot, dryRun: true }));
    expect(result).toMatchObject({ accepted: 1 });
    expect((await api.collection.summary()).counts).toMatchObject({ cars: 0, lots: 0 });
    expect(await api.collection.history()).toEqual([]);
  });
});

describe('reports', () => {
  const fill = async (api: Api) => {
    const { variations } = await addReference(api);
    const { id: lotId } = await api.lots.create({
      name: 'Loft',
      currency: 'USD',
      costs: [{ kind: 'price', minor: 9000 }],
    });
    const { ids } = await api.cars.create({
      lotId,
      cars: [
        { inventoryNumber: 'Q-10', variationId: variations.emberTwin, grade: 8 },
        { inventoryNumber: 'Q-2', variationId: variations.mossTwin, grade: 4, notes: '=SUM(A1)' },
        { inventoryNumber: 'Q-3', asWritten: { casting: 'Whoosh' } },
      ],
    });
    const bytes = await picture('jpeg');
    await api.photos.add({ carId: ids[0] ?? 0, files: [new File([new Uint8Array(bytes)], 'a.jpg')] });
    return { lotId, ids };
  };

  it('print every car and the exact total as PDF', async () => {
    const { api, dir } = await newCollectionService();
    await fill(api);
    // The total is what the cars are expected to bring together, as Home says it.
    const total = (await api.collection.home()).totals.asFound.mid;
    expect(total).toBeGreaterThan(0);
    const { content, fileName, mime, warnings } = await reported(api, { format: 'pdf', title: 'Mes Étés' });
    expect({ fileName, mime, warnings }).toEqual({
      fileName: 'mes-etes-2026-03-14.pdf',
      mime: 'application/pdf',
      warnings: [],
    });
    const text = pdfText(dir, content);
    for (const number of ['Q-2', 'Q-3', 'Q-10']) expect(text).toContain(number);
    expect(text).toContain((total / 100).toFixed(2));
    expect(text).toContain('fair market value');
    expect(text).toMatch(/not enough evidence/i);
  });

  it('is worded and counted as its reader writes', async () => {
    const { api, dir } = await newCollectionService();
    const { lotId, ids } = await fill(api);
    const [carId = 0] = ids;
    await api.cars.update({ changes: [{ id: carId, patch: { finishState: 'customised' } }] });
    await api.lots.update({ id: lotId, costs: [{ kind: 'price', minor: 500_000 }] });
    await api.lots.shareCost({ id: lotId, fixed: [{ carId, minor: 123_450 }] });
    const read = async (locale?: string) =>
      pdfText(
        dir,
        (await reported(api, { format: 'pdf', carIds: [carId], ...(locale && { locale }) })).content,
      );
    const [american, british, german] = [await read(), await read('en-GB'), await read('de')];
    expect(american).toMatch(/\bColor\b/);
    expect(american).toMatch(/Customized: this is not the factory finish/);
    expect(american).not.toMatch(/colour|customised|judgement/i);
    expect(british).toMatch(/\bColour\b/);
    expect(british).toMatch(/Customised: this is not the factory finish/);
    expect(british).not.toMatch(/\bcolor\b|customized|judgment/i);
    expect(american).toContain('1,234.50');
    expect(german).toContain('1.234,50');
    expect(await refusalOf(api.reports.make({ format: 'csv', locale: 'no locale' }))).toMatchObject({
      code: 'BAD_REQUEST',
    });
  });

  it('write the cars as CSV by number, which imports again with no mapping', async () => {
    const { api, dir } = await newCollectionService();
    const { lotId } = await fill(api);
    const { content, mime } = await reported(api, { format: 'csv', lotId });
    expect(mime).toBe('text/csv; charset=utf-8');
    const text = content.toString('utf8');
    expect(
      text
        .split('\r\n')
        .slice(1, 4)
        .map(line => line.split(',')[0]),
    ).toEqual(['Q-2', 'Q-3', 'Q-10']);
    expect(text).toContain("'=SUM(A1)");
    await api.collection.create({ dir: join(dir, 'second') });
    await addReference(api);
    const result = await resultOf(
      await api.imports.run({ as: 'lot', file: csv(text), lot: { name: 'Back', currency: 'USD' } }),
    );
    expect(result).toMatchObject({ accepted: 3, rejected: [] });
    const rows = await api.cars.list({});
    expect(rows.map(row => [row.inventoryNumber, row.variation, row.grade, row.notes])).toEqual([
      ['Q-2', 'Moss, twin lamps', 4, '=SUM(A1)'],
      ['Q-3', null, null, ''],
      ['Q-10', 'Ember, twin lamps', 8, ''],
    ]);
  });

  it('say when a car was last looked at part by part', async () => {
    const { api } = await newCollectionService();
    const { ids } = await fill(api);
    for (const checkedOn of ['2026-02-03', '2025-07-08'])
      await api.cars.saveCheck({ carId: ids[1] ?? 0, checkedOn, grade: 4, parts: [] });
    const { content } = await reported(api, { format: 'csv' });
    const [heads = '', ...cars] = content.toString('utf8').split('\r\n');
    expect(heads).toContain('documented_on');
    // Neither another car's nor an earlier one.
    expect(cars.filter(car => car.includes('2026-02-03')).map(car => car.split(',')[0])).toEqual(['Q-2']);
    expect(cars.join('\n')).not.toContain('2025-07-08');
  });

  it('write XLSX, for chosen cars', async () => {
    const { api } = await newCollectionService();
    const { ids } = await fill(api);
    const { content, fileName } = await reported(api, { format: 'xlsx', carIds: [ids[0] ?? 0] });
    expect(fileName).toBe('collection-report-2026-03-14.xlsx');
    const file = new File([new Uint8Array(content)], fileName);
    const preview = await api.imports.preview({ as: 'lot', file });
    expect(preview).toMatchObject({ format: 'xlsx', rows: 1, counts: { accepted: 0, duplicates: 1 } });
  });

  it('never put what is found from sales on a basis for insurance', async () => {
    const { api, dir } = await newCollectionService();
    const { ids } = await fill(api);
    await api.cars.update({
      changes: [{ id: ids[2] ?? 0, patch: { ownWorth: { low: 1100, mid: 1234, high: 1300 } } }],
    });
    const { content } = await reported(api, { format: 'pdf', basis: 'retail replacement value' });
    const text = pdfText(dir, content);
    expect(text).toContain('retail replacement value');
    expect(text).toContain('fair market value');
    expect(text).toContain('12.34');
  });

  it('refuse a day to come, and a report that is no longer kept', async () => {
    const { api } = await newCollectionService();
    await fill(api);
    const ahead = refusalOf(resultOf(await api.reports.make({ format: 'csv', on: '2026-03-15' })));
    expect((await ahead).message).toContain('a future date');
    expect(await refusalOf(api.reports.file({ token: 'nothing' }))).toMatchObject({ code: 'REFUSED' });
    const first = await resultOf(await api.reports.make({ format: 'csv' }));
    for (let i = 0; i < 4; i++) await resultOf(await api.reports.make({ format: 'csv' }));
    expect((await refusalOf(api.reports.file({ token: first.token }))).message).toContain('Make it again');
  });
});
