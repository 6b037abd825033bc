import { describe, expect, it } from 'vitest';
import { demoContent } from '../../../electron/demo/demo-content.ts';
import { rateOn } from '../../../electron/demo/market/rates.ts';
import { rarities } from '../../../valuation/words.ts';
import { demoTruth } from '../../helpers/markets/demo-truth.ts';

const truth = demoTruth();
const { tables } = demoContent();
const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

/** How far the log of each plain record's price lies from what the true market says. */
const residuals = tables.sale_record
  .filter(sale => sale.variation_id && sale.grade_half && sale.notes === '' && sale.excluded === 0)
  .map(sale => {
    const price = (sale.price_minor / 100) * rateOn(sale.currency, sale.sold_on);
    const expected = truth.price(sale.variation_id!, sale.sold_on, {
      grade: sale.grade_half! / 2,
      finishState: sale.finish_state!,
      missing: JSON.parse(sale.missing_parts!),
      reproduction: JSON.parse(sale.reproduction_parts!),
    });
    return { source: sale.source!, off: Math.log(price / expected) };
  });

describe('the market behind the demo', () => {
  it('lies in the middle of its records', () => {
    expect(residuals.length).toBeGreaterThan(480);
    expect(Math.abs(mean(residuals.map(one => one.off)))).toBeLessThan(0.05);
  });

  it('scatters each source as it says', () => {
    for (const [source, sd] of Object.entries(truth.noise)) {
      const own = residuals.filter(one => one.source === source).map(one => one.off);
      const found = Math.sqrt(mean(own.map(off => off * off)));
      expect(found / sd).toBeGreaterThan(0.75);
      expect(found / sd).toBeLessThan(1.3);
    }
  });

  it('asks more for what is rarer, and mostly between 8 and 900 dollars', () => {
    const levels = rarities.map(rarity =>
      mean(tables.variation.filter(one => one.rarity === rarity).map(one => truth.logPrice.get(one.id)!)),
    );
    expect(levels).toEqual(levels.toSorted((a, b) => a - b));
    const prices = tables.sale_record.map(
      sale => (sale.price_minor / 100) * rateOn(sale.currency, sale.sold_on),
    );
    const usual = prices.filter(price => price >= 8 && price <= 900).length / prices.length;
    expect(usual).toBeGreaterThan(0.9);
    expect(prices.some(price => price > 900)).toBe(true);
  });

  it('is nowhere in the collection', () => {
    const written = JSON.stringify(tables);
    for (const level of truth.logPrice.values()) expect(written).not.toContain(level.toFixed(6));
  });
});
