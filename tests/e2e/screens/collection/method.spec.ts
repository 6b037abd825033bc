import { expect, test } from '../../fixtures.ts';
import { breaches, goTo } from '../../looking.ts';

test('one of the owner’s cars is worked through, down to its sale records', async ({ demo, picture }) => {
  await goTo(demo, '/how-values-are-estimated');
  const example = demo.getByRole('region', { name: 'One car, worked through' });
  await expect(example.getByText('From your collection, with your records and your settings.')).toBeVisible();
  await expect(example.getByRole('heading', { name: 'The range' })).toBeVisible();
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'method');
  const weights = await example.locator('tbody tr td:last-child, tfoot td:last-child').allTextContents();
  const percents = weights
    .filter(text => /^[<> ]*\d+ %$/.test(text))
    .map(text => Number.parseInt(text, 10) || 0);
  const total = percents.reduce((sum, percent) => sum + percent, 0);
  expect(total).toBeGreaterThan(94);
  expect(total).toBeLessThan(106);
  await example
    .getByRole('link', { name: /\d{4}$/ })
    .first()
    .click();
  await expect(demo.getByRole('grid', { name: 'Sale records' })).toBeFocused();
});
