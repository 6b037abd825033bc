import type { Page } from '@playwright/test';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { breachesNow } from '../../helpers/breaches.ts';
import { chromiumPath, type Gallery, openGallery } from '../gallery/open-gallery.ts';

const executable = chromiumPath();
if (!executable)
  console.warn('SKIPPED: no Chromium on this machine (set PLAYWORN_CHROMIUM); components are not tried.');

const cell = (page: Page, row: number, column: number) =>
  page.locator(`tr[aria-rowindex="${row + 2}"] > [aria-colindex="${column + 1}"]`);
const rowTexts = async (page: Page, row: number) => {
  const texts = await page.locator(`tr[aria-rowindex="${row + 2}"] > td`).allTextContents();
  return [0, 2, 3, 4, 5].map(column => texts[column]?.trim());
};
const paste = (page: Page, text: string) =>
  page.evaluate(pasted => {
    const data = new DataTransfer();
    data.setData('text/plain', pasted);
    document.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
    );
  }, text);

describe.skipIf(!executable)('components in a real Chromium', () => {
  let gallery: Gallery;
  beforeAll(async () => {
    gallery = await openGallery(executable ?? '');
  });
  afterAll(() => gallery?.close());

  describe.each(['light', 'dark'] as const)('%s', scheme => {
    it.each([
      ['the parts', ''],
      ['the grid', '?page=grid&rows=60'],
      ['the grid with a blank line alone', '?page=grid&rows=0'],
    ])('%s pass axe, WCAG 2.2 AA', async (_, query) => {
      const page = await gallery.page(scheme, query);
      expect(await breachesNow(page)).toEqual([]);
      await page.close();
    });

    it('an open editor and its list pass axe', async () => {
      const page = await gallery.page(scheme, '?page=grid&rows=5');
      await page.locator('[role=grid]').focus();
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('F2');
      await page.locator('[role=option]').first().waitFor();
      expect(await breachesNow(page)).toEqual([]);
      await page.close();
    });
  });

  it('a lot of 16 is catalogued as fast as keys can be pressed, and no keystroke is lost', async () => {
    const page = await gallery.page('light', '?page=grid&rows=0');
    await page.locator('[role=grid]').focus();
    for (let car = 1; car <= 16; car += 1) {
      await page.keyboard.type(`Q-${car}`);
      await page.keyboard.press('Tab');
      await page.keyboard.press('Tab');
      await page.keyboard.type(car % 2 ? 'fenn' : 'Something unlisted');
      await page.keyboard.press('Tab');
      await page.keyboard.type('lag');
      await page.keyboard.press('Tab');
      await page.keyboard.type(`c${(car % 8) + 1.5}`);
      await page.keyboard.press('Tab');
      await page.keyboard.type('restored');
      await page.keyboard.press('Enter');
    }
    await page.getByText('16 cars · 80 actions').waitFor({ timeout: 180_000 });
    for (let car = 1; car <= 16; car += 1)
      expect(await rowTexts(page, car - 1)).toEqual([
        `Q-${car}`,
        car % 2 ? 'Fennel Coupe' : 'Something unlisted',
        'Lagoon',
        `C${(car % 8) + 1.5}`,
        'restored',
      ]);
    await page.close();
  });

  it('fill down, copy, paste and clear are one action each', async () => {
    const page = await gallery.page('light', '?page=grid&rows=8');
    await cell(page, 0, 4).click();
    await page.keyboard.type('9');
    await page.keyboard.press('Enter');
    await page.getByText('· 1 actions').waitFor();
    await page.keyboard.press('ArrowUp');
    for (let row = 0; row < 3; row += 1) await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Control+d');
    await page.getByText('· 2 actions').waitFor();
    for (let row = 0; row < 4; row += 1) expect(await cell(page, row, 4).textContent()).toBe('C9');
    const copied = await page.evaluate(() => {
      const data = new DataTransfer();
      document.dispatchEvent(
        new ClipboardEvent('copy', { clipboardData: data, bubbles: true, cancelable: true }),
      );
      return data.getData('text/plain');
    });
    expect(copied).toBe('9\n9\n9\n9');
    await cell(page, 4, 4).click();
    await paste(page, '4\n99\n4.5\n6\n');
    await page.getByText('· 3 actions').waitFor();
    await page.getByText('Row 6, Grade: A grade is 1 to 10 in half points').waitFor();
    expect(await cell(page, 4, 4).textContent()).toBe('C4');
    expect(await cell(page, 6, 4).textContent()).toBe('C4.5');
    expect(await cell(page, 7, 4).textContent()).toBe('C6');
    await page.keyboard.press('Delete');
    await page.getByText('· 4 actions').waitFor();
    expect(await cell(page, 4, 4).textContent()).toBe('ungraded');
    await page.close();
  });

  it('Escape puts a cell back, and what cannot be read keeps the editor open', async () => {
    const page = await gallery.page('light', '?page=grid&rows=3');
    await cell(page, 0, 0).click();
    await page.keyboard.type('nonsense');
    await page.keyboard.press('Escape');
    expect(await cell(page, 0, 0).textContent()).toBe('Q-0001');
    await cell(page, 0, 4).click();
    await page.keyboard.type('11');
    await page.keyboard.press('Enter');
    await page.getByRole('alert').filter({ hasText: 'A grade is 1 to 10' }).waitFor();
    await page.keyboard.press('Escape');
    expect(await page.locator('main').textContent()).toContain('0 actions');
    await page.close();
  });

  it('an edit does not make a sorted row jump; sorting again does', async () => {
    const page = await gallery.page('light', '?page=grid&rows=12');
    await page.getByRole('columnheader', { name: 'Casting' }).click();
    const first = await cell(page, 0, 0).textContent();
    await cell(page, 0, 2).click();
    await page.keyboard.type('Zz last');
    await page.keyboard.press('Enter');
    await page.getByText('· 1 actions').waitFor();
    expect(await cell(page, 0, 0).textContent()).toBe(first);
    expect(await page.getByRole('columnheader', { name: 'Casting' }).getAttribute('aria-sort')).toBe(
      'ascending',
    );
    await page.getByRole('columnheader', { name: 'Casting' }).click();
    expect(await cell(page, 0, 0).textContent()).toBe(first);
    expect(await cell(page, 0, 2).textContent()).toBe('Zz last');
    await page.close();
  });

  it('10,000 rows: only those in sight are drawn, and the last is one key away', async () => {
    const page = await gallery.page('light', '?page=grid&rows=10000');
    const grid = page.locator('[role=grid]');
    expect(await grid.getAttribute('aria-rowcount')).toBe('10002');
    await grid.focus();
    await page.keyboard.press('Control+End');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Home');
    await page.getByText('Q-10000').waitFor();
    const active = await grid.getAttribute('aria-activedescendant');
    expect(await page.locator(`[id="${active}"]`).textContent()).toBe('Q-10000');
    expect(await page.locator('tbody tr').count()).toBeLessThan(60);
    await page.close();
  });

  it('sale records beneath a strip are one stop of Tab, and arrows walk them from cheapest to dearest', async () => {
    const page = await gallery.page('light', '');
    const dots = page.locator('fieldset[aria-label*="sale records"] button');
    expect(await dots.evaluateAll(all => all.filter(dot => dot.tabIndex === 0).length)).toBe(1);
    await dots.first().focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    const label = await page.evaluate(() => document.activeElement?.getAttribute('aria-label'));
    expect(label).toMatch(/^29 on /);
    await page.getByRole('tooltip').filter({ hasText: '29 on' }).waitFor();
    await page.keyboard.press('End');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toContain(
      'doubtful',
    );
    await page.close();
  });

  it('the sheet of keys lists what works here', async () => {
    const page = await gallery.page('light', '?page=grid&rows=3');
    await page.locator('[role=grid]').focus();
    await page.keyboard.press('?');
    const sheet = page.getByRole('dialog', { name: 'Keyboard shortcuts' });
    await sheet.getByText('Fill down, or copy from the row above').waitFor();
    await page.close();
  });

  it('nothing was refused by the policy, and no console complained', () => {
    expect(gallery.complaints).toEqual([]);
  });
});
