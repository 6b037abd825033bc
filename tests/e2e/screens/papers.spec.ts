import { readFileSync } from 'node:fs';
import { expect, test } from '../fixtures.ts';
import { breaches, goTo } from '../looking.ts';

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

test('a car’s papers are in its menu', async ({ demo }) => {
  await goTo(demo, '/cars/1');
  await demo.getByRole('button', { name: 'More for this car' }).click();
  const [download] = await Promise.all([
    demo.waitForEvent('download'),
    demo.getByRole('menuitem', { name: /^Sale sheet/ }).click(),
  ]);
  expect(download.suggestedFilename()).toMatch(/^sale-sheet-.*\.pdf$/);
  await expect(demo.getByText(/^sale-sheet-.* made$/)).toBeVisible();
});
