import type { Page } from '@playwright/test';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo, startEmpty } from '../../looking.ts';

const overflow = (page: Page) =>
  page.evaluate(() => {
    const main = document.querySelector('main');
    return main ? main.scrollWidth - main.clientWidth : Number.NaN;
  });

test('a set of one year shows what is there, what is missing, and what completing it costs', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/reference/sets');
  await expect(demo.getByRole('grid', { name: 'Castings to choose from' })).toBeFocused();
  await demo.getByRole('combobox', { name: 'First year' }).click();
  await demo.getByRole('option', { name: '1968' }).click();
  await demo.getByRole('textbox', { name: 'Name of the set' }).fill('First year');
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'sets');
  await demo.keyboard.press('Enter');
  await expect(demo.getByRole('heading', { name: 'First year' })).toBeVisible();
  await expect(demo.getByText(/^\d+ of \d+ castings in your collection$/)).toBeVisible();
  const table = demo.getByRole('table', { name: 'Castings of the set' });
  const rows = await table.getByRole('row').count();
  expect(rows).toBeGreaterThan(2);
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'set');
  await table
    .getByRole('button', { name: /^Take out/ })
    .first()
    .press('Enter');
  await expect(table.getByRole('row')).toHaveCount(rows - 1);
  await demo.keyboard.press('Control+z');
  await expect(table.getByRole('row')).toHaveCount(rows);
  await goTo(demo, '/reference/sets');
  await demo.getByRole('textbox', { name: 'Name of the set' }).fill('Everything');
  await demo.keyboard.press('Enter');
  await expect(demo.getByRole('heading', { name: 'Everything' })).toBeVisible();
  await expect(table.getByText('missing').first()).toBeVisible();
  const cost = demo.getByText(/would cost about/);
  const inC6 = await cost.textContent();
  expect(inC6).toMatch(
    /in C6 with factory finish would cost about [\d,]+ USD, likely between [\d,]+ USD and/,
  );
  await demo.getByRole('combobox', { name: 'Grade of the missing ones' }).selectOption('9');
  await expect(cost).toContainText('in C9');
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'set-missing');
  await demo.setViewportSize({ width: 768, height: 900 });
  await picture(demo, 'set-narrow');
  // A name that another set has is refused before anything is sent.
  await demo.getByRole('button', { name: 'Rename …' }).press('Enter');
  const naming = demo.getByRole('dialog', { name: 'Rename the set' });
  await naming.getByRole('textbox', { name: 'Name' }).fill('first YEAR');
  await expect(naming.getByText('Another set has this name.')).toBeVisible();
  await expect(naming.getByRole('button', { name: 'Rename' })).toBeDisabled();
  await naming.getByRole('textbox', { name: 'Name' }).fill('All there is');
  await demo.keyboard.press('Enter');
  await expect(demo.getByRole('heading', { name: 'All there is' })).toBeVisible();
  await demo.keyboard.press('Control+z');
  await expect(demo.getByRole('heading', { name: 'Everything' })).toBeVisible();
  await demo.setViewportSize({ width: 400, height: 800 });
  expect(await overflow(demo)).toBe(0);
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'set-phone');
  await goTo(demo, '/reference/sets');
  expect(await overflow(demo)).toBe(0);
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'sets-phone');
});

test('without castings, the page of sets says what to begin with', async ({ start, collection, picture }) => {
  const { page } = await start();
  await startEmpty(page, collection);
  await expect(page.getByRole('navigation', { name: 'Places' })).toBeVisible();
  await goTo(page, '/reference/sets');
  await expect(page.getByRole('heading', { name: 'A set is made of castings' })).toBeVisible();
  expect(await breaches(page)).toEqual([]);
  await picture(page, 'sets-empty');
});
