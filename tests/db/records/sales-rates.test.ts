import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readMarket } from '../../../db/engine/market.ts';
import { runAction, runBulk } from '../../../db/history/history.ts';
import { briefSales } from '../../../db/records/sales/brief-sales.ts';
import {
  excludeSales,
  insertSale,
  listSales,
  type SaleEntry,
  saleKey,
  updateSale,
} from '../../../db/records/sales/sales.ts';
import { e9ToRate, rateToE9, saveRate } from '../../../db/records/worth/rates.ts';
import { addSample, at, newCollection } from '../../helpers/collections.ts';

const sale: Omit<SaleEntry, 'id'> = {
  soldOn: '2025-05-05',
  price: 4200,
  currency: 'USD',
  castingId: null,
  variationId: null,
  asWritten: { casting: 'Whoosh' },
  grade: 6.5,
  finishState: 'restored',
  missingParts: ['roof'],
  reproductionParts: ['wheels', 'glazing'],
  source: 'auction',
  reference: 'lot 12',
  reliabilityPercent: 90,
  excluded: false,
  excludedWhy: '',
  disposalId: null,
  notes: 'seen on the day',
  unread: [{ column: 'What', text: 'nice', field: 'grade' }],
};

describe('sale records', () => {
  it('come back as they were written', async () => {
    const collection = await newCollection();
    const id = await runAction(collection, 'Added', at, trx => insertSale(trx, sale));
    expect(await listSales(collection.read.db)).toEqual([{ id, ...sale }]);
    const changed = { ...sale, id, grade: null, missingParts: [], reliabilityPercent: null };
    await runAction(collection, 'Changed', at, trx => updateSale(trx, changed));
    expect(await listSales(collection.read.db, { ids: [id] })).toEqual([changed]);
  });

  it('are the same in brief, the newest first and of one day the one entered last, though read piece by piece', async () => {
    const collection = await newCollection();
    const { db } = collection.read;
    await runAction(collection, 'Added', at, async trx => {
      for (let i = 0; i < 1100; i++) {
        const plain = { ...sale, asWritten: {}, missingParts: [], reproductionParts: [], unread: [] };
        const entry = i % 3 === 0 ? { ...plain, grade: null, excluded: true, reference: '' } : sale;
        await insertSale(trx, { ...entry, soldOn: `2025-0${1 + (i % 7)}-05`, price: 1 + i });
      }
    });
    const whole = (await listSales(db)).map(({ unread, disposalId, ...one }) => ({
      ...one,
      isUnread: (unread ?? []).length > 0,
      own: disposalId !== null,
    }));
    const newestFirst = whole.sort((a, b) => b.soldOn.localeCompare(a.soldOn) || b.id - a.id);
    const brief = await briefSales(db);
    expect(brief.map(({ id }) => id)).toEqual(newestFirst.map(({ id }) => id));
    for (const [i, one] of brief.entries()) expect(newestFirst[i]).toMatchObject(one);
  });

  it('are the same observation by source and reference, else by all that is known', () => {
    const same = (change: Partial<typeof sale>) => saleKey({ ...sale, ...change }) === saleKey(sale);
    expect(same({ notes: 'other', grade: 3, source: ' Auction ' })).toBe(true);
    expect(same({ reference: 'lot 13' })).toBe(false);
    expect(same({ price: 4201 })).toBe(false);
    const bare = { ...sale, reference: '' };
    expect(saleKey({ ...bare, grade: 3 })).not.toBe(saleKey(bare));
    expect(saleKey({ ...bare, notes: 'x' })).toBe(saleKey(bare));
    expect(saleKey({ ...sale, disposalId: 3 })).toBe(saleKey({ ...bare, disposalId: 3, price: 1 }));
  });

  it('may be entered twice by hand', async () => {
    const collection = await newCollection();
    await runAction(collection, 'Added', at, async trx => {
      await insertSale(trx, sale);
      await insertSale(trx, sale);
    });
    expect(await listSales(collection.read.db)).toHaveLength(2);
  });

  it('are all read for the engine, once each and in their order, however many there are', async () => {
    const collection = await newCollection();
    await addSample(collection);
    const { sqlite } = collection.write;
    const insert = sqlite.prepare(
      `INSERT INTO sale_record (sold_on, price_minor, currency, casting_id, source, excluded, identity)
       VALUES ('2025-05-05', ?, 'USD', 1, 'auction', ?, ?)`,
    );
    const left: number[] = [];
    await runBulk(collection, 'Added', at, async () => {
      for (let price = 1; price <= 2100; price++) {
        const isOut = price % 7 === 0;
        insert.run(price, Number(isOut), `s${price}`);
        if (!isOut) left.push(price);
      }
    });
    const { sales } = await readMarket(collection.read.db);
    expect(sales.flatMap(({ source, price }) => (source === 'auction' ? [price] : []))).toEqual(left);
  });

  it('reach the engine only with a casting and not left out', async () => {
    const collection = await newCollection();
    await addSample(collection);
    const ids = await runAction(collection, 'Added', at, async trx => {
      await insertSale(trx, sale);
      const known = { ...sale, castingId: 1, asWritten: {} };
      return [
        await insertSale(trx, { ...known, reference: 'a', variationId: 2, reliabilityPercent: null }),
        await insertSale(trx, { ...known, reference: 'b' }),
      ];
    });
    await runAction(collection, 'Left out', at, async trx => {
      await excludeSales(trx, [ids[1] ?? 0], true, 'a friend');
      await saveRate(trx, 'EUR', '2025-01-01', '1.16');
    });
    const market = await readMarket(collection.read.db);
    expect(market.sales).toEqual([
      {
        id: ids[0],
        soldOn: '2025-05-05',
        price: 4200,
        currency: 'USD',
        castingId: 1,
        variationId: 2,
        grade: 6.5,
        finishState: 'restored',
        missingParts: ['roof'],
        reproductionParts: ['wheels', 'glazing'],
        reliability: null,
        source: 'auction',
      },
    ]);
    expect(market.rates).toEqual([{ currency: 'EUR', on: '2025-01-01', rate: 1.16 }]);
    expect(market.castings).toHaveLength(3);
    expect(market.variations.every(variation => variation.castingId >= 1)).toBe(true);
  });
});

describe('rates', () => {
  it('keep every decimal there and back', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9_007_199_254_740_991 }), e9 => {
        expect(rateToE9(e9ToRate(e9))).toBe(e9);
      }),
    );
    expect(e9ToRate(rateToE9('1.2735'))).toBe('1.2735');
    expect(e9ToRate(rateToE9('150.000'))).toBe('150');
    expect(rateToE9('0.000000001')).toBe(1);
  });

  it('refuse nothing, words and more than can be kept', () => {
    for (const rate of ['0', '0.0', '', '1,2', '-1', '1e3', '1.0000000001', '10000000'])
      expect(() => rateToE9(rate), rate).toThrow(RangeError);
  });
});
