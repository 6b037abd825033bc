import { describe, expect, expectTypeOf, it } from 'vitest';
import type { z } from 'zod';
import { gradeToHalf, halfToGrade } from '../../db/codec.ts';
import type { CarRecord } from '../../db/records/cars/cars.ts';
import type { SaleEntry } from '../../db/records/sales/sales.ts';
import type { HalfGrade } from '../../db/schema.ts';
import type * as inputs from '../../electron/api/inputs.ts';
import { formatMinor } from '../../valuation/money.ts';
import type { Currency, IsoDate, Minor } from '../../valuation/types.ts';
import { type Grade, gradeLabel } from '../../valuation/words.ts';

const amount: Minor = 1250;
const grade: Grade = 7.5;
const currency: Currency = 'USD';
const day: IsoDate = '2026-03-14';
const half: HalfGrade = 15;

describe('amounts, grades, currencies and days', () => {
  it('cannot stand for one another', () => {
    // @ts-expect-error a grade is no amount
    formatMinor(grade, currency);
    // @ts-expect-error an amount is no grade
    gradeLabel(amount);
    // @ts-expect-error a doubled grade is no grade
    gradeLabel(half);
    // @ts-expect-error a grade that is doubled already is not doubled again
    gradeToHalf(half);
    // @ts-expect-error a currency is no day
    const on: IsoDate = currency;
    // @ts-expect-error a day is no currency
    const code: Currency = day;
    expect([on, code]).toEqual(['USD', '2026-03-14']);
  });

  it('take literals and arithmetic as they are', () => {
    const doubled: Minor = amount * 2;
    const better: Grade = grade + 0.5;
    expect(`${formatMinor(doubled, 'USD')} ${gradeLabel(better)} ${gradeLabel(8)}`).toBe('25.00 C8 C8');
    expect(halfToGrade(gradeToHalf(grade))).toBe(grade);
  });

  it('come out of the inputs and the mappers as what they are', () => {
    expectTypeOf<z.output<typeof inputs.dispose>['proceeds']>().toEqualTypeOf<Minor>();
    expectTypeOf<z.output<typeof inputs.dispose>['currency']>().toEqualTypeOf<Currency>();
    expectTypeOf<z.output<typeof inputs.dispose>['soldOn']>().toEqualTypeOf<IsoDate>();
    expectTypeOf<z.output<typeof inputs.savePlan>['targetGrade']>().toEqualTypeOf<Grade>();
    expectTypeOf<CarRecord['cost']>().toEqualTypeOf<Minor | null>();
    expectTypeOf<CarRecord['grade']>().toEqualTypeOf<Grade | null>();
    expectTypeOf<SaleEntry['price']>().toEqualTypeOf<Minor>();
    expectTypeOf<SaleEntry['soldOn']>().toEqualTypeOf<IsoDate>();
    expectTypeOf<SaleEntry['currency']>().toEqualTypeOf<Currency>();
  });
});
