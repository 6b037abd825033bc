import { fileURLToPath } from 'node:url';
import { expect, test } from '../fixtures.ts';
import { breaches, goTo, settled } from '../looking.ts';

const fixture = (name: string) => fileURLToPath(new URL(`../../fixtures/${name}`, import.meta.url));

test('before an import it is seen which lots it makes, what the file shows and leaves open, and how much is understood', async ({
  start,
  collection,
  picture,
}) => {
  const { page } = await start();
  await page.getByRole('button', { name: 'Start empty' }).click();
  await page.getByLabel('Folder').fill(collection);
  await page.getByRole('button', { name: 'Create the collection' }).click();
  await expect(page.getByRole('list', { name: 'First steps' })).toBeVisible();
  await goTo(page, '/lots/import');
  await page.getByLabel('Spreadsheet to import').setInputFiles(fixture('strangers/purchases.csv'));

  const taken = page.getByRole('complementary', { name: 'What will be imported' });
  await expect(taken).toContainText('12 cars, in 10 rows, would be imported');
  await expect(taken).toContainText(/68 of 77 cells understood/);
  await expect(taken).toContainText('1 line left out: a total');
  const lots = taken.getByRole('list', { name: 'Lots that the import makes' });
  await expect(lots.getByRole('listitem')).toHaveText([
    /Saltby fair, 2024-03-14.*3 cars · 27.00 USD · bought together/,
    /estate sale, 2025-05-30.*3 cars · 30.00 USD · bought together/,
    /online, 2025-01-13.*2 cars · 12.50 USD · bought together/,
    /purchases.*4 cars · 1,175.00 USD for 3 of them · collected one by one/,
  ]);
  await settled(page);
  await picture(page, 'import-lots');
  expect(await breaches(page)).toEqual([]);

  // What the file leaves open is answered by a press, for all cells of its column at once.
  await expect(page.getByRole('heading', { name: 'What the file does not say' })).toBeVisible();
  await expect(page.getByText('“Paid”: decimal point, which 9 cells show')).toBeVisible();
  await expect(page.getByRole('combobox', { name: 'What “11/2/24” means' })).toHaveCount(0);
  await page.getByRole('button', { name: 'Bought: month first' }).click();
  await page.getByRole('button', { name: 'Sold on: month first' }).click();
  await expect(page.getByRole('heading', { name: 'What the file shows' })).toBeVisible();
  await expect(page.getByText('“Bought”: month first, as you said')).toBeVisible();
  await expect(lots).toContainText('E. Tarrow, 2024-11-02');
  await settled(page);

  await taken.getByRole('radio', { name: /^All in one lot/ }).check();
  await expect(lots.getByRole('listitem')).toHaveCount(1);
  await taken.getByRole('radio', { name: /^One lot for each/ }).check();
  await expect(lots).toContainText('E. Tarrow, 2024-11-02');
  await taken.getByRole('button', { name: 'Import 12 cars' }).click();
  await expect(page.getByRole('heading', { level: 1, name: /^Imported 12 cars/ })).toBeVisible();
  await expect(page.getByText(/of 77 cells understood/)).toBeVisible();
  await expect(page.getByRole('link', { name: 'E. Tarrow, 2024-11-02' })).toBeVisible();
  await settled(page);
  await picture(page, 'import-lots-made');
  expect(await breaches(page)).toEqual([]);

  // What was paid is evidence once the names are settled; one purchase is left out.
  await page.getByRole('link', { name: 'E. Tarrow, 2024-11-02' }).click();
  await expect(page.getByText(/2 cars of it are not identified/)).toBeVisible();
  await page.getByRole('button', { name: 'What was paid, as evidence' }).click();
  const evidence = page.getByRole('dialog', { name: 'What was paid, as evidence' });
  await evidence.getByRole('textbox').first().fill('a friend’s price');
  await settled(page);
  await picture(page, 'lot-evidence');
  expect(await breaches(page)).toEqual([]);
  await page.keyboard.press('Enter');
  await expect(page.getByText('you have left it out: a friend’s price').first()).toBeVisible();
  await evidence.getByRole('button', { name: 'Count it again' }).click();
  await expect(
    page.getByText('None of its 2 purchases counts: 2 cars of it are not identified.'),
  ).toBeVisible();
});

test('another line holds the headings, or none does', async ({ start, collection }) => {
  const { page } = await start();
  await page.getByRole('button', { name: 'Start empty' }).click();
  await page.getByLabel('Folder').fill(collection);
  await page.getByRole('button', { name: 'Create the collection' }).click();
  await expect(page.getByRole('list', { name: 'First steps' })).toBeVisible();
  await goTo(page, '/lots/import');
  await page.getByLabel('Spreadsheet to import').setInputFiles(fixture('practice/my-cars.csv'));
  const headings = page.getByRole('combobox', { name: 'Headings', exact: true });
  await expect(headings).toHaveValue('3');
  const taken = page.getByRole('complementary', { name: 'What will be imported' });
  await expect(taken).toContainText('7 cars would be imported');
  await headings.selectOption('0');
  await expect(page.getByRole('rowheader', { name: 'column 2' })).toBeVisible();
  await settled(page);
  await headings.selectOption('3');
  await expect(taken).toContainText('7 cars would be imported');
});
