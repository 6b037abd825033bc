import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import { answering } from '../../answering.ts';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo, settled, startEmpty } from '../../looking.ts';

const practice = (name: string) =>
  fileURLToPath(new URL(`../../../fixtures/practice/${name}`, import.meta.url));

const begin = async (page: Page, collection: string) => {
  await startEmpty(page, collection);
  await expect(page.getByRole('list', { name: 'First steps' })).toBeVisible();
};

test('a list is read with its owner’s words: asked once, by keyboard, used from then on', async ({
  start,
  collection,
  picture,
}) => {
  const { page } = await start();
  await begin(page, collection);
  await goTo(page, '/lots/import?as=lot');
  await page.getByLabel('Spreadsheet to import').setInputFiles(practice('my-cars.csv'));
  const go = page.getByRole('button', { name: 'Import 7 cars' });
  // Nothing has to be answered first.
  await expect(go).toBeEnabled();
  await expect(page.getByRole('heading', { name: 'Not understood yet' })).toBeVisible();
  await settled(page);
  await picture(page, 'words-import');
  expect(await breaches(page)).toEqual([]);
  await page.setViewportSize({ width: 1100, height: 800 });
  await settled(page);
  await picture(page, 'words-import-narrow');
  await page.setViewportSize({ width: 1440, height: 900 });

  const counts = await answering(page, { 'painted front': 'front q', 'repainted by someone': 'cust' });
  test.info().annotations.push({ type: 'answers', description: JSON.stringify(counts) });
  console.log(`my-cars.csv: ${counts.answers} answers, ${counts.keys} keys`);
  await picture(page, 'words-answered');
  await go.click();
  await expect(page.getByRole('heading', { level: 1, name: /^Imported 7 cars/ })).toBeVisible();
  await settled(page);
  await picture(page, 'words-result');

  // What "beater" means is known to the grid of the lot, to the search and to Settings.
  await page.getByRole('button', { name: /^Go to/ }).click();
  const grid = page.getByRole('grid');
  const beater = grid.getByRole('row').filter({ hasText: 'C2' });
  await expect(beater).toHaveCount(1);
  await settled(page);
  await picture(page, 'words-lot');
  const graded = grid.getByRole('row').filter({ hasText: 'C3' }).getByRole('gridcell').nth(6);
  await graded.click();
  await page.keyboard.type('beater');
  await page.keyboard.press('Enter');
  await expect(beater).toHaveCount(2);
  await goTo(page, '/settings?part=words');
  await expect(page.getByRole('rowheader', { name: 'beater' })).toBeVisible();
  await settled(page);
  await expect(page.getByRole('rowheader', { name: 'beater' })).toBeInViewport();
  await picture(page, 'words-settings');
  expect(await breaches(page)).toEqual([]);
  // Each word says how many rows were read by it; those wait again where its owner says so.
  const plain = page.getByRole('row').filter({ has: page.getByRole('rowheader', { name: 'plain' }) });
  await expect(plain).toContainText('3 cars');
  await plain.getByRole('button', { name: 'Remove “plain”' }).click();
  await settled(page);
  await picture(page, 'words-remove');
  await page.getByRole('menuitem', { name: 'Remove, and let them wait for a meaning' }).click();
  await expect(page.getByText('“plain” removed from your words: 3 cars waiting again')).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(plain).toContainText('3 cars');
  await page.getByRole('textbox', { name: 'Add a text' }).fill('junk');
  await page.getByRole('combobox', { name: 'Means', exact: true }).fill('C1');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('rowheader', { name: 'junk' })).toBeVisible();
  await page.getByRole('button', { name: 'Remove “junk”' }).click();
  await expect(page.getByRole('rowheader', { name: 'junk' })).toHaveCount(0);
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('rowheader', { name: 'junk' })).toBeVisible();
});

test('what was left is flagged, and settled later for all its rows at once', async ({
  start,
  collection,
  picture,
}) => {
  const { page } = await start();
  await begin(page, collection);
  await goTo(page, '/lots/import?as=lot');
  await expect(page.getByRole('heading', { level: 1, name: 'Import a spreadsheet' })).toBeVisible();
  await page.evaluate(() => {
    const data = new DataTransfer();
    data.setData(
      'text/plain',
      'Car\tPaint\tCond.\nOsmerry\tember\tgood\nHalcyard\tlime\tgood\nHalcyard\tred\tC7\n',
    );
    document.body.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
    );
  });
  await expect(page.getByRole('heading', { level: 1, name: 'Pasted list' })).toBeVisible();
  const asked = page.getByRole('combobox', { name: 'What “good” means' });
  // What people mean differently is asked without a suggestion.
  await expect(asked).toHaveValue('');
  await page.getByRole('button', { name: 'Import 3 cars' }).click();
  await expect(page.getByRole('heading', { level: 1, name: /^Imported 3 cars/ })).toBeVisible();
  await settled(page);
  await goTo(page, '/cars?show=not-understood');
  await expect(page.getByRole('link', { name: '2 with something not understood' })).toBeVisible();
  await settled(page);
  await picture(page, 'unread-cars');
  expect(await breaches(page)).toEqual([]);
  await goTo(page, '/cars/1');
  await expect(page.getByRole('region', { name: 'Not understood' })).toBeVisible();
  await settled(page);
  await picture(page, 'unread-car');
  expect(await breaches(page)).toEqual([]);
  await goTo(page, '/not-understood');
  await expect(asked).toBeVisible();
  await settled(page);
  await picture(page, 'unread-all');
  expect(await breaches(page)).toEqual([]);
  await asked.focus();
  await page.keyboard.type('C6');
  await page.keyboard.press('Enter');
  await expect(page.getByText(/“good” means C6: 2 cars settled/)).toBeVisible();
  await goTo(page, '/cars');
  await expect(page.getByRole('gridcell', { name: 'C6' })).toHaveCount(2);
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('link', { name: '2 with something not understood' })).toBeVisible();
});

test('sixty rows by another hand: twelve answers leave hardly a cell that is not understood', async ({
  start,
  collection,
  picture,
}) => {
  const { page } = await start();
  await begin(page, collection);
  await goTo(page, '/lots/import?as=lot');
  const sixty = fileURLToPath(new URL('../../../fixtures/strangers/sixty.csv', import.meta.url));
  await page.getByLabel('Spreadsheet to import').setInputFiles(sixty);
  const taken = page.getByRole('complementary', { name: 'What will be imported' });
  // Every row is taken before anything is answered.
  await expect(taken).toContainText('60 cars would be imported');
  await settled(page);
  const counts = await answering(page, {
    'lt grn': 'Limewash',
    yel: 'yellow',
    'dk blue': 'dark blue',
    painted: 'full',
    repaint: 'restored',
    beater: 'C2',
    'VG+': 'C6.5',
    '7+': 'C7.5',
    '8-9': 'C8.5',
    nice: 'C7',
  });
  expect(counts.answers).toBeLessThanOrEqual(12);
  await settled(page);
  const text = (await taken.getByText(/cells understood/).textContent()) ?? '';
  const [, understood, cells] = /(\d+) of (\d+) cells understood/.exec(text) ?? [];
  console.log(`sixty.csv: ${counts.answers} answers, ${counts.keys} keys, ${understood} of ${cells} cells`);
  expect(Number(understood) / Number(cells)).toBeGreaterThanOrEqual(0.9);
  await picture(page, 'words-sixty');
  expect(await breaches(page)).toEqual([]);
});

test('the search finds cars by a word of their owner, and by what it means', async ({
  start,
  collection,
}) => {
  const { page } = await start();
  await begin(page, collection);
  await goTo(page, '/lots/import?as=lot');
  await page.getByLabel('Spreadsheet to import').setInputFiles({
    name: 'shelf.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(
      'Number,Car,Paint,Grade\nS-1,Otterholt,lt grn,7\nS-2,Silver Kite,red,7\nS-3,Silver Kite,lt grn,6\n',
    ),
  });
  await expect(page.getByRole('heading', { name: 'Not understood yet' })).toBeVisible();
  await settled(page);
  expect((await answering(page, { 'lt grn': 'Limewash' })).answers).toBe(1);
  await page.getByRole('button', { name: 'Import 3 cars' }).click();
  await expect(page.getByRole('heading', { level: 1, name: /^Imported 3 cars/ })).toBeVisible();
  const search = page.getByRole('textbox', { name: 'Search everything' });
  const found = page.getByRole('dialog').getByRole('button', { name: /^S-/ });
  for (const text of ['lt grn', 'limewash']) {
    await page.keyboard.press('Control+k');
    await search.fill(text);
    await expect(found).toHaveCount(2);
    await expect(found.nth(0)).toContainText('S-1');
    await expect(found.nth(1)).toContainText('S-3');
    await page.keyboard.press('Escape');
    await expect(search).toHaveCount(0);
  }
  await page.keyboard.press('Control+k');
  await search.fill('lt grn');
  await found.first().click();
  await expect(page).toHaveURL(/#\/cars\/\d+/);
  await goTo(page, '/cars');
  await page.keyboard.press('f');
  await page.keyboard.type('lt grn');
  await expect(page.getByRole('grid').getByRole('row').filter({ hasText: /S-\d/ })).toHaveCount(2);
});
