import type { Page } from '@playwright/test';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo, settled } from '../../looking.ts';

const lines = [
  '2026-03-14 Morning Milk, Ember, bar lamp C8 original nice, $61.00, toy fair',
  '2026-03-15 lot of 4 cars C5 $40',
  '2026-03-16 Morning Milk poster $9',
  'Carrier’s Friend Ember C6.5, $35',
  '2026-03-18 Ashlock moss C7, 44.50',
  '4/5/26 Ashlock C6 $30',
  '2026-03-20 Larkspur Van green C8 $22',
];
const grid = (page: Page) => page.getByRole('grid', { name: 'Lines of sales' });
const row = (page: Page, text: string) => grid(page).getByRole('row').filter({ hasText: text });
const paste = async (page: Page, text: string) => {
  const field = page.getByRole('textbox', { name: 'Sales, one a line' });
  await expect(field).toBeFocused();
  await field.evaluate((element, pasted) => {
    const data = new DataTransfer();
    data.setData('text/plain', pasted);
    element.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
    );
  }, text);
};

test('lines of sales are pasted, marked, completed by keyboard, and added as one action', async ({
  demo: page,
  picture,
}) => {
  await goTo(page, '/sales');
  await expect(page.getByRole('grid', { name: 'Sale records' })).toBeFocused();
  await page.keyboard.press('Control+j');
  await expect(page.getByRole('heading', { level: 1, name: 'Paste sales' })).toBeVisible();
  expect(await breaches(page)).toEqual([]);
  await picture(page, 'paste-empty');
  await paste(page, lines.join('\n'));
  await expect(grid(page)).toBeFocused();
  await expect(row(page, 'lot of 4')).toContainText('several cars');
  await expect(row(page, 'poster')).toContainText('not a car');
  await expect(row(page, 'Carrier’s Friend')).toContainText('lacks a date');
  await expect(row(page, '4/5/26')).toContainText('lacks a date');
  await expect(row(page, 'Larkspur')).toContainText('add, name waits');
  await expect(page.getByText('4/5/26 can be read two ways')).toBeVisible();
  await expect(page.getByText('One price names no currency')).toBeVisible();
  expect(await breaches(page)).toEqual([]);
  await picture(page, 'paste-lines');

  await page.getByText('Month first').click();
  await expect(row(page, '4/5/26')).toContainText(/Apr/);
  // The date that is lacking is typed; the cursor begins in that column.
  await row(page, 'Carrier’s Friend').getByText('no date').click();
  await page.keyboard.type('2026-03-17');
  await page.keyboard.press('Enter');
  await expect(row(page, 'Carrier’s Friend')).not.toContainText('lacks');
  await row(page, 'lot of 4').getByText('several cars').click();
  await page.keyboard.press('Enter');
  await page.keyboard.press('Enter');
  await settled(page);
  // What "nice" means is said once, beside the lines, and they are read again with it.
  await page.keyboard.press('F8');
  const words = page.getByRole('dialog', { name: 'What these texts mean' });
  await expect(words.getByRole('row').filter({ hasText: 'nice' })).toBeVisible();
  expect(await breaches(page)).toEqual([]);
  await picture(page, 'paste-words');
  await words.getByLabel('What “nice” is about').selectOption('grade');
  await words.getByLabel('What “nice” means').fill('C8');
  await page.keyboard.press('Enter');
  await expect(words.getByText('✓')).toHaveCount(1);
  await page.keyboard.press('Escape');
  await expect(words).toBeHidden();
  await page.keyboard.press('Control+s');
  await expect(page.getByRole('heading', { level: 1, name: /^Added \d sale records$/ })).toBeVisible();
  await expect(page.getByRole('link', { name: /names? (is|are) not in the reference yet$/ })).toBeVisible();
  await expect(page.getByRole('link', { name: /texts? (was|were) not understood/ })).toBeVisible();
  expect(await breaches(page)).toEqual([]);
  await picture(page, 'paste-added');

  await page.getByRole('button', { name: 'Paste more' }).click();
  await paste(page, lines.join('\n'));
  await expect(row(page, 'Larkspur')).toContainText('recorded already');
  await goTo(page, '/sales');
  await page.keyboard.press('Control+z');
  await expect(page.getByText(/^600 sales of/)).toBeVisible();
});

test('a thousand lines are read, and narrow screens show them', async ({ demo: page, picture }) => {
  const names = ['Morning Milk', 'Ashlock', 'Carrier’s Friend', 'Nowhere Flyer'];
  const many = Array.from(
    { length: 1000 },
    (_, at) =>
      `2025-${String(1 + (at % 12)).padStart(2, '0')}-${String(1 + (at % 28)).padStart(2, '0')} ${names[at % 4]} C${3 + (at % 6)} $${20 + at}`,
  );
  await goTo(page, '/sales/paste');
  await paste(page, many.join('\n'));
  await expect(page.getByRole('button', { name: 'Add 1,000 sale records' })).toBeVisible();
  await page.setViewportSize({ width: 1100, height: 700 });
  await settled(page);
  await picture(page, 'paste-thousand-narrow');
  await page.keyboard.press('Control+s');
  await expect(page.getByRole('heading', { level: 1, name: 'Added 1,000 sale records' })).toBeVisible();
});
