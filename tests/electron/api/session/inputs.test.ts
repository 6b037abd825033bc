/** What is refused where it enters, whichever procedure it is given to. */
import { existsSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderInput } from '../../../../electron/api/folder-input.ts';
import { addReference, newCollectionService, newService, refusalOf } from '../../../helpers/api.ts';

describe('a currency that ISO 4217 does not have', () => {
  it('founds no collection', async () => {
    const { api, dir } = newService();
    const refusal = await refusalOf(api.collection.create({ reportingCurrency: 'ZZZ' }));
    expect(refusal.message).toContain('"ZZZ" is not a currency of ISO 4217');
    expect(existsSync(join(dir, 'collection'))).toBe(false);
  });
  it('enters nowhere else either', async () => {
    const { api } = await newCollectionService();
    const { variations } = await addReference(api);
    const currency = 'ABC';
    const { ids } = await api.cars.create({ lotId: null, cars: [{ variationId: variations.emberTwin }] });
    const carId = ids[0] as number;
    const sale = {
      soldOn: '2026-01-01',
      price: 100,
      source: 'fair' as const,
      castingId: 1,
      variationId: null,
    };
    const attempts = [
      api.collection.saveSettings({ reportingCurrency: currency }),
      api.collection.saveRate({ currency, on: '2026-01-01', rate: '1.2' }),
      api.collection.savePart({ name: 'Axle', inStock: 1, unit: 5, currency }),
      api.lots.create({ name: 'Loft', currency }),
      api.sales.create({ ...sale, currency }),
      api.cars.dispose({ carId, soldOn: '2026-01-01', proceeds: 1, currency }),
      api.cars.addExpense({ carId, spentOn: '2026-01-01', what: 'Paint', minor: 1, currency }),
      api.imports.run({ file: new File(['casting\nDovetail\n'], 'x.csv'), as: 'lot', currency }),
    ];
    for (const attempt of attempts) expect((await refusalOf(attempt)).message).toContain('ISO 4217');
  });
});

describe('a folder', () => {
  it('that does not say where it is kept is refused with what to write', async () => {
    const { api } = newService();
    const before = existsSync('Cars of mine');
    for (const call of [api.collection.create, api.collection.open]) {
      const { code, message } = await refusalOf(call({ dir: 'Cars of mine' }));
      expect(code).toBe('BAD_REQUEST');
      expect(message).toContain(`write the folder in full, such as ${join(homedir(), 'Cars of mine')}`);
    }
    expect([before, existsSync('Cars of mine')]).toEqual([false, false]);
  });
  it('may be written from the home', () => {
    expect(folderInput.parse('~/Documents/Cars')).toBe(join(homedir(), 'Documents', 'Cars'));
    expect(folderInput.safeParse('~anna/Cars').success).toBe(false);
  });
});
