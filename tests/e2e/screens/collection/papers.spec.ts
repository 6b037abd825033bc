import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo } from '../../looking.ts';

test('papers and lists beside the report are chosen, made and saved', async ({ demo, picture }) => {
  await goTo(demo, '/reports');
  const others = demo.getByRole('region', { name: 'Other papers and lists' });
  const choose = async (field: string, option: string | RegExp) => {
    await others.getByRole('combobox', { name: field, exact: true }).click();
    await demo.getByRole('option', { name: option }).click();
  };
  const saved = async () => {
    await others.getByRole('button', { name: 'Make it' }).click();
    const [download] = await Promise.all([
      demo.waitForEvent('download'),
      others.getByRole('button', { name: 'Save it' }).click(),
    ]);
    return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
  };
  await choose('Paper', /^Labels/);
  await choose('Sheet or roll', /^A4, 65 labels/);
  await others.getByRole('textbox', { name: 'First label to use' }).fill('4');
  const labels = await saved();
  expect(labels.name).toMatch(/^labels-.*\.pdf$/);
  expect(labels.bytes.subarray(0, 5).toString()).toBe('%PDF-');
  await picture(demo, 'reports-labels');
  expect(await breaches(demo)).toEqual([]);
  await choose('Paper', /^A whole list/);
  await choose('List', 'Sale records');
  await choose('As', 'CSV');
  expect((await saved()).bytes.toString('utf8')).toMatch(/^\ufeffsold_on,price,currency,/);
  await choose('Paper', /^Want list/);
  expect((await saved()).name).toMatch(/^want-list-/);
});

test('a car’s papers are in its menu, looked at before they are saved', async ({ demo, picture }) => {
  await goTo(demo, '/cars/1');
  await demo.getByRole('button', { name: 'More for this car' }).click();
  await demo.getByRole('menuitem', { name: /^Sale sheet/ }).click();
  const dialog = demo.getByRole('dialog', { name: /^Sale sheet/ });
  await expect(dialog.getByRole('img', { name: /^Page 1 of 1 of sale-sheet-/ })).toBeVisible();
  await picture(demo, 'car-paper');
  expect(await breaches(demo)).toEqual([]);
  const [download] = await Promise.all([
    demo.waitForEvent('download'),
    dialog.getByRole('button', { name: 'Save it' }).click(),
  ]);
  expect(download.suggestedFilename()).toMatch(/^sale-sheet-.*\.pdf$/);
});

test('a dossier can leave out values and places, a saved want list is made again by its name', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/cars/1');
  await demo.getByRole('button', { name: 'More for this car' }).click();
  await demo.getByRole('menuitem', { name: /^Dossier/ }).click();
  const dialog = demo.getByRole('dialog', { name: /^Dossier/ });
  await expect(dialog.getByRole('img', { name: /^Page 1 of/ })).toBeVisible();
  await dialog.getByRole('checkbox', { name: 'Leave out values and prices' }).check();
  await expect(dialog.getByRole('img', { name: /^Page 1 of/ })).toBeVisible();
  await picture(demo, 'car-dossier-bare');
  await goTo(demo, '/reports');
  const others = demo.getByRole('region', { name: 'Other papers and lists' });
  await others.getByRole('combobox', { name: 'Paper', exact: true }).click();
  await demo.getByRole('option', { name: /^Want list/ }).click();
  await others.getByRole('checkbox', { name: 'Leave out values' }).check();
  await others.getByLabel('Save these choices as').fill('For the fair');
  await others.getByRole('button', { name: 'Save the choices' }).click();
  const saved = demo.getByRole('region', { name: 'Saved reports' });
  await saved.getByRole('button', { name: 'Make For the fair again' }).click();
  await expect(others.getByRole('img', { name: /^Page 1 of \d+ of want-list-/ })).toBeVisible();
  await expect(others.getByRole('checkbox', { name: 'Leave out values' })).toBeChecked();
  const [download] = await Promise.all([
    demo.waitForEvent('download'),
    others.getByRole('button', { name: 'Save it' }).click(),
  ]);
  expect(download.suggestedFilename()).toMatch(/^want-list-/);
  await expect(saved.getByRole('row').filter({ hasText: 'For the fair' })).toContainText('Want list');
  await picture(demo, 'reports-named-paper');
  expect(await breaches(demo)).toEqual([]);
});

test('a report is looked at page by page, by keyboard, as it will be saved', async ({ demo, picture }) => {
  await goTo(demo, '/reports');
  await demo.getByRole('button', { name: 'Make the PDF' }).click();
  const preview = demo.getByRole('region', { name: 'Preview' });
  const shown = (page: number) => preview.getByRole('img', { name: new RegExp(`^Page ${page} of \\d+ of `) });
  await expect(shown(1)).toBeVisible();
  await preview.getByRole('figure', { name: 'Page' }).focus();
  await demo.keyboard.press('PageDown');
  await expect(shown(2)).toBeVisible();
  // A picture that the page may not load, or that is no picture, has no width.
  expect(
    await shown(2).evaluate((image: HTMLImageElement) => image.decode().then(() => image.naturalWidth)),
  ).toBeGreaterThan(500);
  await picture(demo, 'reports-preview');
  expect(await breaches(demo)).toEqual([]);
  await demo.keyboard.press('End');
  await expect(preview.getByRole('button', { name: 'Next page' })).toBeDisabled();
  const last = await preview.getByRole('img', { name: /^Page/ }).getAttribute('alt');
  const [, at, of] = /^Page (\d+) of (\d+)/.exec(last ?? '')!;
  expect(at).toBe(of);
  await demo.keyboard.press('Home');
  await expect(shown(1)).toBeVisible();
});

test('a report is saved by its name, made again, and listed with its total and fingerprint', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/reports');
  await demo.getByRole('radio', { name: 'CSV' }).check();
  await demo.getByRole('checkbox', { name: 'Leave out where cars are kept' }).check();
  const saved = demo.getByRole('region', { name: 'Saved reports' });
  await saved.getByLabel('Save these choices as').fill('Places left out');
  await saved.getByRole('button', { name: 'Save the choices' }).click();
  await demo.getByRole('radio', { name: 'PDF' }).check();
  await saved.getByRole('button', { name: 'Make Places left out again' }).click();
  await expect(demo.getByRole('radio', { name: 'CSV' })).toBeChecked();
  const [download] = await Promise.all([
    demo.waitForEvent('download'),
    demo.getByRole('button', { name: 'Save it' }).click(),
  ]);
  const bytes = readFileSync(await download.path());
  const row = saved.getByRole('row').filter({ hasText: 'Places left out' });
  await expect(row).toContainText(createHash('sha256').update(bytes).digest('hex'));
  await saved.scrollIntoViewIfNeeded();
  await picture(demo, 'reports-saved');
  expect(await breaches(demo)).toEqual([]);
});
