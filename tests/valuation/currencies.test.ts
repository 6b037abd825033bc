import { describe, expect, it } from 'vitest';
import { currencies, currencyDecimals, isCurrency } from '../../valuation/index.ts';
import listOne from '../published/data/iso-4217.json' with { type: 'json' };

describe('the currencies that an amount can be in', () => {
  it('are those of ISO 4217 list one that have a minor unit, each with its decimals', () => {
    const read = Object.fromEntries(
      Object.keys(listOne.minorUnits).map(code => [code, isCurrency(code) && currencyDecimals(code)]),
    );
    expect(read).toEqual(listOne.minorUnits);
  });
  it('are no metal, basket or code for tests', () => {
    expect(listOne.withoutMinorUnits).toContain('XTS');
    expect(listOne.withoutMinorUnits.filter(isCurrency)).toEqual([]);
  });
  it('are beside those only ones that have been withdrawn or have come since', () => {
    const others = currencies.filter(code => !(code in listOne.minorUnits));
    expect(others.join(' ')).toBe(
      'ATS BEF CYP DDM DEM EEK ESP FIM FRF GRD HRK IEP ITL LTL LUF LVL MTL NLG PTE ROL SIT SKK SLL STD TRL VEB VEF XCG YUM ZWL',
    );
    expect(['DEM', 'FRF', 'ITL', 'ESP'].map(currencyDecimals)).toEqual([2, 2, 0, 0]);
  });
  it('are nothing that only looks like a code', () => {
    for (const code of ['ABC', 'ZZZ', 'XYZ', 'usd', 'US', 'USDX', '', 'US$', '__proto__']) {
      expect(isCurrency(code), code).toBe(false);
      expect(() => currencyDecimals(code), code).toThrow(/ISO 4217/);
    }
  });
});
