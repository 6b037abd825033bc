import type { Locator, Page } from '@playwright/test';
import { expect, test } from '../../fixtures.ts';
import { goTo } from '../../looking.ts';

/** The first page of a paper is a picture that is drawn, and the last one can be turned to. */
const isLookedAt = async (within: Locator, fileName: RegExp) => {
  const preview = within.getByRole('region', { name: 'Preview' });
  const leaf = preview.getByRole('img');
  await expect(leaf).toHaveAccessibleName(fileName);
  await expect(leaf).toHaveAccessibleName(/^Page 1 of /);
  const width = () => leaf.evaluate((picture: HTMLImageElement) => picture.naturalWidth);
  await expect.poll(width).toBeGreaterThan(100);
  const pages = Number(
    await preview
      .getByText(/^of \d+$/)
      .textContent()
      .then(text => text?.slice(3)),
  );
  if (pages > 1) {
    await preview.getByRole('figure', { name: 'Page' }).press('End');
    await expect(preview.getByRole('img', { name: new RegExp(`^Page ${pages} of ${pages} `) })).toBeVisible();
    await expect.poll(width).toBeGreaterThan(100);
  }
};

const choose = async (page: Page, within: Locator, field: string, option: string | RegExp) => {
  await within.getByRole('combobox', { name: field, exact: true }).click();
  await page.getByRole('option', { name: option }).first().click();
};

test('each paper of the collection is looked at page by page before it is saved', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/reports');
  const main = demo.getByRole('main');
  const form = main.locator('form').first();
  await form.getByRole('button', { name: 'Make the PDF' }).click();
  await isLookedAt(main, /\.pdf$/);
  await picture(demo, 'paper-preview');
  await choose(demo, form, 'Cars', /^Lot: Barn tin/);
  await form.getByRole('button', { name: 'Make the PDF' }).click();
  await isLookedAt(main, /\.pdf$/);
  const others = demo.getByRole('region', { name: 'Other papers and lists' });
  for (const [paper, fileName] of [
    [/^Decision worksheet/, / of worksheet-/],
    [/^Want list/, / of want-list-/],
    [/^Bid sheet/, / of bid-/],
    [/^Labels/, / of labels-/],
    [/^Ledger/, / of ledger-/],
  ] as const) {
    await choose(demo, others, 'Paper', paper);
    if (fileName.source.includes('bid')) await choose(demo, others, 'Lot', 'Barn tin');
    await others.getByRole('button', { name: 'Make it' }).click();
    await isLookedAt(others, fileName);
  }
});

test('each paper of a car is looked at page by page before it is saved', async ({ demo }) => {
  await goTo(demo, '/cars/1');
  const work = demo.getByRole('region', { name: 'Work and events' });
  await work.getByRole('button', { name: 'Something happened to it…' }).click();
  await work.getByLabel('What happened').fill('dropped');
  await work.getByLabel('Grade afterwards').fill('C2');
  await work.getByRole('button', { name: 'Save the event' }).click();
  await expect(work.getByText(/C2 after/)).toBeVisible();
  for (const [paper, fileName] of [
    [/^Dossier/, / of dossier-/],
    [/^Sale sheet/, / of sale-sheet-/],
    [/^Claim sheet/, / of claim-/],
    [/^Bench sheet/, / of bench-sheet-/],
  ] as const) {
    await demo.getByRole('button', { name: 'More for this car' }).click();
    await demo.getByRole('menuitem', { name: paper }).click();
    const dialog = demo.getByRole('dialog', { name: paper });
    await isLookedAt(dialog, fileName);
    await demo.keyboard.press('Escape');
    await expect(dialog).toBeHidden();
  }
});
