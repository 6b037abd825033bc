import { describe, expect, it } from 'vitest';
import { cpiU, indexFactor } from '../../valuation/index.ts';
import published from './data/cpi-u.json' with { type: 'json' };

describe('CPI-U annual averages, U.S. Bureau of Labor Statistics, 1982–84 = 100 (read)', () => {
  it('are shipped as published, the odd 1966 included', () => {
    const years = { ...published.annual_1955_1959, ...published.annual };
    for (const [year, level] of Object.entries(years)) expect(cpiU[Number(year)], year).toBe(level);
    expect(cpiU[1966]).toBe(32.4);
    expect(cpiU[2025]).toBe(321.943);
    expect(Object.keys(cpiU)).toHaveLength(Object.keys(years).length + 1);
  });

  it('prices of 1970 are multiplied by 8.084768 for 2024', () => {
    expect(indexFactor(cpiU, 1970, 2024)).toBeCloseTo(8.084768, 6);
  });
});
