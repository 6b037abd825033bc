import { describe, expect, it } from 'vitest';
import { isTotalsRow } from '../../../db/import/judges/totals.ts';

describe('a line of totals', () => {
  it.each([
    ['TOTAL', '169'],
    ['Total:', '9 cars', '$412.50'],
    ['Grand total', '1,204.00'],
    ['Sub-total', '12'],
    ['Totals for the year 1969', '61'],
    ['Total cars: 9'],
    ['Total paid (USD)', '412.50'],
    ['9 cars total', '412.50'],
    ['Sum', '44'],
    ['Average grade', 'C6.2'],
    ['Count', '83'],
    ['Summe', '2.604,00'],
    ['Gesamt (9 Autos)', '412,50 €'],
    ['Gesamtsumme', '412,50 €'],
    ['Zwischensumme', '12'],
    ['Durchschnitt', '6,2'],
    ['Somme totale', '44 €'],
    ['Total général', '44'],
    ['Moyenne', '6'],
    ['Totaal aantal', '9'],
    ['Suma', '44 zł'],
    ['Totale', '44'],
    ['合計', '9'],
    ['Σ', '412.50'],
    ['Итого', '9'],
  ])('%s', (...filled) => {
    expect(isTotalsRow(filled)).toBe(true);
  });

  it.each([
    ['1', 'Totaliser Van', 'red', '7'],
    ['Total Wagon', 'C7', 'blue'],
    ['7', 'Osmerry', '12'],
    ['Grand Tourer', '8', '45'],
    ['Summer Breeze', '7'],
    ['2026-03-14', 'Night Parcel', '45'],
    ['Count Orlando', '6'],
    ['no', 'rear', '7'],
    ['9', '12'],
  ])('is not %s', (...filled) => {
    expect(isTotalsRow(filled)).toBe(false);
  });
});
