import { carsToDecide } from '../../deciding.ts';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo } from '../../looking.ts';
import { savedList } from '../../saved-list.ts';

test('the list of lots is saved in the order in which it stands, with its figures and its costs', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/lots');
  const grid = demo.getByRole('grid', { name: 'Lots' });
  await grid.getByRole('columnheader', { name: /^Cost/ }).click();
  await expect(grid.getByRole('columnheader', { name: /^Cost/ })).toHaveAttribute('aria-sort', 'descending');
  const names = await grid.getByRole('link').allTextContents();
  const { name, heads, column } = await savedList(demo, 'As shown: CSV');
  expect(name).toMatch(/^lots-.*\.csv$/);
  expect(heads.slice(0, 6)).toEqual(['lot', 'seller', 'bought_on', 'total', 'currency', 'cars']);
  expect(heads).toEqual(expect.arrayContaining(['value_as_found', 'costs', 'notes']));
  expect(column('lot')).toEqual(names);
  const totals = column('total').map(Number);
  expect(totals).toEqual(totals.toSorted((a, b) => b - a));
  expect((await savedList(demo, 'Whole list: CSV')).heads).not.toContain('value_as_found');
  await picture(demo, 'lots-export');
  await demo.setViewportSize({ width: 390, height: 844 });
  await picture(demo, 'lots-export-narrow');
  expect(await breaches(demo)).toEqual([]);
});

test('of the reference what is looked for is saved, and the variations that a car can be', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/reference');
  const tree = demo.getByRole('navigation', { name: 'Castings' });
  await tree.getByRole('textbox', { name: 'Find a casting' }).fill('saloon');
  const shown = await tree.locator('li a > :first-child').allTextContents();
  expect(shown.length).toBeGreaterThan(0);
  const castings = await savedList(demo, 'Castings listed: CSV');
  expect(castings.name).toMatch(/^reference-.*\.csv$/);
  expect(castings.column('casting')).toEqual(shown);
  expect((await savedList(demo, 'Whole reference: CSV')).rows.length).toBeGreaterThan(shown.length);
  await picture(demo, 'reference-export');
  await tree.getByRole('link').nth(1).click();
  const grid = demo.getByRole('grid', { name: /^Variations of/ });
  await grid.getByRole('columnheader', { name: /^Colou?r/ }).click();
  await expect(grid.getByRole('columnheader', { name: /^Colou?r/ })).toHaveAttribute(
    'aria-sort',
    'ascending',
  );
  const variations = await savedList(demo, 'These variations: CSV');
  expect(variations.heads.slice(0, 3)).toEqual(['casting', 'colour', 'rarity']);
  const count = Number(await grid.getAttribute('aria-rowcount')) - 1;
  expect(variations.rows).toHaveLength(count);
  const colours = variations.column('colour');
  expect(colours).toEqual(colours.toSorted((a, b) => a.localeCompare(b, 'en')));
  await picture(demo, 'casting-export');
});

test('the jobs on the bench are saved as they stand there, and what was spent on a car', async ({
  demo,
  picture,
}) => {
  await carsToDecide(demo, 'recommendation=conserve');
  await demo.keyboard.press('Space');
  await demo.keyboard.press('ArrowDown');
  await demo.keyboard.press('Space');
  await demo.getByRole('button', { name: 'Put 2 on the bench' }).click();
  const queue = demo.getByRole('navigation', { name: 'Cars on the bench' });
  // Behind the three that are there already.
  await expect(queue.getByRole('link')).toHaveCount(5);
  const earlier = queue.getByRole('button', { name: / earlier$/ }).last();
  const last = (await earlier.getAttribute('aria-label'))?.replace(' earlier', '') ?? '';
  await earlier.click();
  await expect(queue.getByRole('link').nth(3)).toContainText(last);
  const inQueue = await queue.getByRole('link').locator('strong').allTextContents();
  const jobs = await savedList(demo, 'Jobs shown: CSV');
  expect(jobs.name).toMatch(/^jobs-.*\.csv$/);
  expect([...new Set(jobs.column('inventory_number'))]).toEqual(inQueue);
  expect(jobs.heads).toEqual(expect.arrayContaining(['step', 'cautions', 'planned_minutes']));
  await picture(demo, 'bench-export');
  await goTo(demo, '/cars/1');
  const books = demo.getByRole('region', { name: 'Cost and sale' });
  await books.getByRole('button', { name: 'Add an expense' }).click();
  await books.getByLabel('What for').fill('Felts');
  await books.getByLabel('Amount').fill('1.20');
  await books.getByLabel('Amount').press('Tab');
  await books.getByRole('button', { name: 'Add', exact: true }).click();
  await expect(books.getByRole('row').filter({ hasText: 'Felts' })).toBeVisible();
  const spent = await savedList(demo, 'Of this car: CSV');
  expect(spent.name).toMatch(/^expenses-.*\.csv$/);
  expect(spent.column('what')).toContain('Felts');
  expect(new Set(spent.column('inventory_number')).size).toBe(1);
  await picture(demo, 'expenses-export');
});

test('cars that were sold are imported, looked at in their list, and saved as they stand there', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/lots/import?as=disposals');
  const heads = 'inventory number,sold on,sold for,fees,currency,buyer';
  await demo.getByLabel('Spreadsheet to import').setInputFiles({
    name: 'sold.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(`${heads}\nQ-001,2026-02-01,612.50,12.50,USD,A. Fenn\n`),
  });
  await demo.getByRole('button', { name: 'Import 1 sale of a car' }).click();
  await demo.getByRole('button', { name: 'Go to the cars you sold' }).click();
  await expect(demo.getByRole('heading', { level: 1, name: 'Cars you sold' })).toBeVisible();
  const grid = demo.getByRole('grid', { name: 'Cars you sold' });
  const row = grid.getByRole('row').filter({ hasText: 'Q-001' });
  await expect(row).toContainText('612.50');
  await expect(row).toContainText('A. Fenn');
  await grid.getByRole('columnheader', { name: /^Proceeds/ }).click();
  await expect(grid.getByRole('columnheader', { name: /^Proceeds/ })).toHaveAttribute(
    'aria-sort',
    'descending',
  );
  const sold = await savedList(demo, 'As shown: CSV');
  expect(sold.name).toMatch(/^disposals-.*\.csv$/);
  expect(sold.column('inventory_number')[0]).toBe('Q-001');
  expect(sold.column('inventory_number')).toEqual(await grid.getByRole('link').allTextContents());
  await picture(demo, 'cars-sold');
  expect(await breaches(demo)).toEqual([]);
  await demo.setViewportSize({ width: 400, height: 844 });
  await picture(demo, 'cars-sold-narrow');
  await grid.getByRole('link', { name: 'Q-001' }).click();
  await demo.getByRole('link', { name: 'cars you sold' }).click();
  await expect(row).toBeVisible();
});
