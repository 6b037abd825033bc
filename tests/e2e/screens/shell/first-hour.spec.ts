import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo, inScheme, settled, startEmpty } from '../../looking.ts';

const practice = (name: string) =>
  readFileSync(new URL(`../../../fixtures/practice/${name}`, import.meta.url), 'utf8');

/** Presses and types as a user does, and counts it. */
const hands = (page: Page) => {
  const counts = { keys: 0, clicks: 0 };
  return {
    counts,
    press: async (key: string) => {
      counts.keys += 1;
      await page.keyboard.press(key);
    },
    type: async (text: string) => {
      counts.keys += text.length;
      await page.keyboard.type(text);
    },
    click: async (name: string, role: 'link' | 'button' = 'link') => {
      counts.clicks += 1;
      await page.getByRole(role, { name }).first().click();
    },
    /** One key, whatever is on the clipboard. */
    paste: async (text: string) => {
      counts.keys += 1;
      await page.evaluate(pasted => {
        const data = new DataTransfer();
        data.setData('text/plain', pasted);
        (document.activeElement ?? document.body).dispatchEvent(
          new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
        );
      }, text);
    },
  };
};

test('from an empty collection and a messy list to decisions', async ({ start, collection, picture }) => {
  const { page } = await start();
  await startEmpty(page, collection);
  const { counts, press, click, paste } = hands(page);
  const steps = page.getByRole('list', { name: 'First steps' });
  const step = (name: string) => steps.getByRole('listitem').filter({ hasText: name });
  await expect(steps).toBeVisible();

  await click('Import your list');
  await expect(page.getByRole('heading', { level: 1, name: 'Import a spreadsheet' })).toBeVisible();
  await paste(practice('my-cars.csv'));
  await expect(page.getByRole('button', { name: 'Import 7 cars' })).toBeVisible();
  await settled(page);
  await picture(page, 'first-hour-import');
  await click('Import 7 cars', 'button');
  await expect(page.getByRole('heading', { level: 1, name: /^Imported 7 cars/ })).toBeVisible();
  await settled(page);
  await picture(page, 'first-hour-imported');

  await goTo(page, '/');
  await expect(step('Cars in')).toContainText('7 cars in the collection.');
  await expect(step('Names settled')).toContainText('3 names wait, of 7 cars');
  await expect(step('Words settled')).toContainText(/\d texts? (was|were) not understood/);
  expect(await breaches(page)).toEqual([]);
  await picture(page, 'first-hour-cars-in');

  await goTo(page, '/sales');
  await press('Control+j');
  await expect(page.getByRole('textbox', { name: 'Sales, one a line' })).toBeFocused();
  await paste(practice('sold.csv'));
  await expect(page.getByRole('button', { name: 'Add 6 sale records' })).toBeVisible();
  await press('Control+s');
  await expect(page.getByRole('heading', { level: 1, name: 'Added 6 sale records' })).toBeVisible();
  await goTo(page, '/');
  await expect(step('Names settled')).toContainText('Settling these 3 names gives 6 cars a value.');

  await click('Settle names');
  await expect(page.getByRole('grid', { name: 'Names' })).toBeFocused();
  for (const left of [2, 1]) {
    await press('Enter');
    await expect(page.getByText(new RegExp(`^${left} names? of`))).toBeVisible();
  }
  await press('Enter');
  await expect(page.getByRole('heading', { name: 'Every name is settled' })).toBeVisible();
  await goTo(page, '/lots/1');
  await expect(page.getByText('The reference has no variation of this casting yet.')).toBeVisible();
  await goTo(page, '/');
  // The one that somebody has repainted waits until its owner says what that makes of it.
  await expect(step('Prices entered')).toContainText('6 of 7 cars have a value.');
  expect(await breaches(page)).toEqual([]);
  await picture(page, 'first-hour-valued');
  await inScheme(page, 'dark');
  await page.setViewportSize({ width: 1100, height: 800 });
  await settled(page);
  await picture(page, 'first-hour-valued-narrow-dark');
  await page.setViewportSize({ width: 1440, height: 900 });
  await inScheme(page, 'light');

  await click('Say what they mean');
  const meanings = page.getByRole('main').getByLabel(/^What “.*” means$/);
  await expect(meanings.first()).toBeVisible();
  const asked = await meanings.count();
  await meanings.first().focus();
  // Enter takes the meaning that is near, and passes by a text without one.
  for (let at = 0; at < asked; at++) await press('Enter');
  await expect(page.getByRole('main').getByText('✓')).toHaveCount(4);
  await settled(page);
  await picture(page, 'first-hour-words');
  await goTo(page, '/');
  await expect(page.getByText('2 cars have no grade')).toHaveCount(0);

  await click('Decide');
  await expect(page.getByRole('grid', { name: 'Cars to decide' })).toBeFocused();
  await press('Control+a');
  await press('r');
  const dialog = page.getByRole('dialog');
  await expect(dialog).toBeVisible();
  await press('Enter');
  await expect(dialog).toBeHidden();
  await goTo(page, '/');
  await expect(steps).toHaveCount(0);
  console.log(
    `From an empty collection to decisions: ${counts.keys} keys and ${counts.clicks} clicks for 7 cars.`,
  );
  expect(counts.keys + counts.clicks).toBeLessThanOrEqual(60);
});

test('what the owner believes gives as many cars a value as Home said', async ({
  start,
  collection,
  picture,
}) => {
  const { page } = await start();
  await startEmpty(page, collection);
  const { counts, press, type, click, paste } = hands(page);
  const prices = page
    .getByRole('list', { name: 'First steps' })
    .getByRole('listitem')
    .filter({ hasText: 'Prices entered' });
  await click('Import your list');
  await expect(page.getByRole('heading', { level: 1, name: 'Import a spreadsheet' })).toBeVisible();
  await paste('Car,Cond.\nMoorcot Tractor,6\nMoorcot Tractor,4\n');
  await click('Import 2 cars', 'button');
  await expect(page.getByRole('heading', { level: 1, name: /^Imported 2 cars/ })).toBeVisible();
  await click('1 name is not in the reference yet');
  await expect(page.getByRole('grid', { name: 'Names' })).toBeFocused();
  await press('Enter');
  await expect(page.getByRole('heading', { name: 'Every name is settled' })).toBeVisible();
  await goTo(page, '/');
  await expect(prices).toContainText(
    'Say what a common car of yours in about C5 brings: 2 cars get a value.',
  );
  await settled(page);
  await picture(page, 'first-hour-belief-asked');

  await click('Say what you believe');
  const beliefs = page.getByRole('region', { name: 'What you believe' });
  await expect(beliefs.getByRole('combobox', { name: 'Grade' })).toHaveValue('C5');
  await beliefs.getByRole('textbox', { name: 'Brings from' }).focus();
  await type('20');
  await beliefs.getByRole('textbox', { name: 'Up to' }).focus();
  await type('35');
  await press('Enter');
  await expect(beliefs.getByRole('row').filter({ hasText: 'the series Unsorted' })).toContainText(
    '20.00 – 35.00',
  );
  await goTo(page, '/');
  await expect(prices).toContainText('2 of 2 cars have a value.');
  console.log(
    `A belief gives two cars a value: ${counts.keys} keys and ${counts.clicks} clicks from their list.`,
  );
});
