import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { answer, playwornProcess } from '../../../electron/cli/run-command.ts';
import { expect, test } from '../../fixtures.ts';
import { breaches, gate, goTo, settled } from '../../looking.ts';

const first = [
  'Brackenhall',
  'Corriemuir',
  'Silverkite',
  'Dovetail',
  'Oxbow',
  'Ashlock',
  'Tamfen',
  'Wickmoor',
  'Harrowgill',
  'Pellstone',
];
const second = ['Van', 'Coupe'];

/** Twenty castings, each in two spellings. */
const list = [
  '#,Car,Year,Colour,Cond.',
  ...first.flatMap((one, at) =>
    second.flatMap((two, of) => [
      `${at * 4 + of * 2 + 1},${one} ${two},${1965 + at},purple,6`,
      `${at * 4 + of * 2 + 2},"${two}s, ${one.toUpperCase()}",${1965 + at},green,4`,
    ]),
  ),
];

const many = [
  'Car,Cond.',
  ...Array.from({ length: 300 }, (_, at) => `${first[at % 10]} ${at} ${second[at % 2]},5`),
];

/** A collection that has imported these lines as a lot. */
const imported = async (home: string, collection: string, lines: string[]) => {
  const file = join(home, 'list.csv');
  writeFileSync(file, lines.join('\n'));
  await answer(['import', file, '--as', 'lot', '--collection', collection], 0, playwornProcess);
};

const names = (page: Page) => page.getByRole('grid', { name: 'Names' });

test('names of twenty castings are settled in at most sixty keys', async ({
  home,
  collection,
  start,
  picture,
}) => {
  await imported(home, collection, list);
  const { page } = await start();
  let keys = 0;
  const press = async (key: string) => {
    keys += 1;
    await page.keyboard.press(key);
  };
  await goTo(page, '/reference/names');
  await expect(names(page)).toBeFocused();
  await expect(page.getByText('20 names of 40 cars')).toBeVisible();
  expect(await breaches(page)).toEqual([]);
  await picture(page, 'names');
  const settling = await gate(page, /rpc\/names\/settle/);
  for (let at = 0; at < 19; at++) await press('Enter');
  await settling.asked;
  await expect(page.getByText('1 name of 2 cars')).toBeVisible();
  // The last one is another release of the one before it, which is still on its way to the service.
  await press('r');
  await page.keyboard.type('wick');
  keys += 'wick'.length;
  await expect(page.getByText('Searching …')).toBeVisible();
  settling.open();
  await expect(page.getByRole('option')).toHaveCount(1);
  await press('Enter');
  await expect(page.getByRole('heading', { name: 'Every name is settled' })).toBeVisible();
  expect(await breaches(page)).toEqual([]);
  await picture(page, 'names-settled');
  console.log(`Twenty castings settled in ${keys} keys.`);
  expect(keys).toBeLessThanOrEqual(60);
  await page.keyboard.press('Control+z');
  await expect(page.getByText('1 name of 2 cars')).toBeVisible();
});

test('a name is the same as one there is, its spelling is parted, or it is no car', async ({
  home,
  collection,
  start,
  picture,
}) => {
  await imported(home, collection, [
    ...list.slice(0, 5),
    '90,Brackenhal Vans,1965,red,5',
    '91,Biscuit tin,,,',
    '92,Silver Kite,,,4',
    '93,Silver Kites,,,4',
  ]);
  const { page } = await start();
  await goTo(page, '/reference/names');
  await expect(names(page)).toBeFocused();
  const panel = page.getByRole('complementary', { name: 'The name under the cursor' });
  await expect(panel.getByRole('heading')).toHaveText('Brackenhall Van');
  await panel.getByRole('button', { name: 'Brackenhal Vans is another name' }).click();
  await expect(page.getByText('5 names of 8 cars')).toBeVisible();
  await names(page).getByText('Brackenhall Van', { exact: true }).click();
  await page.keyboard.press('e');
  await page.keyboard.type('Brackenhall Delivery Van');
  await page.keyboard.press('Enter');
  await expect(names(page)).toBeFocused();
  await names(page).getByText('Brackenhal Vans', { exact: true }).click();
  await page.keyboard.press('s');
  await expect(page.getByRole('option').first()).toHaveText(/Brackenhall Delivery Van/);
  await settled(page);
  await picture(page, 'names-same-as');
  expect(await breaches(page)).toEqual([]);
  await page.keyboard.press('Enter');
  await expect(page.getByText('Brackenhal Vans settled: 1 car identified')).toBeVisible();
  await names(page).getByText('Biscuit tin', { exact: true }).click();
  await page.keyboard.press('x');
  await expect(page.getByText('Biscuit tin is not a car')).toBeVisible();
  await expect(names(page).getByRole('row')).toHaveCount(3);
  await page.keyboard.press('Shift+ArrowUp');
  await expect(panel.getByRole('heading')).toHaveText('2 names');
  await picture(page, 'names-several');
  await page.keyboard.press('n');
  await expect(page.getByText('2 names settled: 4 cars identified')).toBeVisible();

  // What was settled and parted is listed, and each can be taken back.
  await goTo(page, '/settings?part=names');
  const answers = page.getByRole('table', { name: 'Names you settled' });
  await expect(answers.getByRole('row').filter({ hasText: 'two names, never one' })).not.toHaveCount(0);
  expect(await breaches(page)).toEqual([]);
  await picture(page, 'names-taken-back');
  await answers.getByRole('button', { name: 'Take back “Biscuit tin”' }).click();
  await expect(answers.getByText('Biscuit tin')).toHaveCount(0);
  await goTo(page, '/reference/names');
  await expect(names(page).getByText('Biscuit tin', { exact: true })).toBeVisible();
});

test('three hundred names stand, narrow and dark', async ({ home, collection, start, picture }) => {
  await imported(home, collection, many);
  const { page } = await start();
  await goTo(page, '/reference/names');
  await expect(page.getByText('300 names of 300 cars')).toBeVisible();
  await page.setViewportSize({ width: 1100, height: 760 });
  await page.keyboard.press('Control+End');
  expect(await breaches(page)).toEqual([]);
  await page.emulateMedia({ colorScheme: 'dark' });
  await settled(page);
  await picture(page, 'names-many-dark');
  const overflow = await page.evaluate(() => {
    const main = document.querySelector('main');
    return main ? main.scrollWidth - main.clientWidth : Number.NaN;
  });
  expect(overflow).toBeLessThanOrEqual(1);
});

test('many castings are put into one series by one choice, and two that are the same are merged', async ({
  home,
  collection,
  start,
  picture,
}) => {
  await imported(home, collection, list.slice(0, 9));
  for (const name of ['Brackenhall Van', 'Brackenhall Coupe', 'Corriemuir Van', 'Corriemuir Coupe'])
    await answer(['settle', name, '--as', 'casting', '--collection', collection], 0, playwornProcess);
  const { page } = await start();
  await goTo(page, '/reference/series');
  const grid = page.getByRole('grid', { name: 'Castings by series' });
  await expect(grid).toBeFocused();
  await page.keyboard.press('Control+a');
  const panel = page.getByRole('complementary', { name: 'The castings that are selected' });
  await expect(panel.getByRole('heading')).toHaveText('4 castings');
  await panel.getByRole('combobox', { name: 'All of series' }).fill('Slipwinds');
  await panel.getByRole('combobox', { name: 'by the maker' }).fill('Quillon Toys');
  await page.keyboard.press('Enter');
  await picture(page, 'names-series');
  expect(await breaches(page)).toEqual([]);
  await panel.getByRole('button', { name: 'Put 4 castings there' }).click();
  await expect(page.getByText('4 castings put into Slipwinds')).toBeVisible();
  await expect(grid.getByText('Slipwinds')).toHaveCount(4);
  await goTo(page, '/reference');
  await page.getByRole('link', { name: /Brackenhall Van/ }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Brackenhall Van' })).toBeVisible();
  await page.keyboard.press('m');
  const dialog = page.getByRole('dialog', { name: 'Merge into Brackenhall Van' });
  await dialog.getByRole('combobox').click();
  await page.getByRole('option', { name: /Corriemuir Van/ }).click();
  await settled(page);
  await picture(page, 'names-merge');
  expect(await breaches(page)).toEqual([]);
  await dialog.getByRole('button', { name: 'Merge' }).click();
  await expect(page.getByText('Corriemuir Van merged into Brackenhall Van')).toBeVisible();
  await expect(page.getByRole('link', { name: '4 of yours' })).toBeVisible();
});

test('variations that were seen are settled by a key each', async ({ home, collection, start, picture }) => {
  await imported(home, collection, [
    'Car,Year,Colour,Rear end',
    'Silver Kite,1970,aqua,bar lamp',
    'Silver Kite,1970,Aqua,',
    'Silver Kite,1970,aqua blue,bar lamp',
    'Silver Kite,1970,lime,',
    'Oxbow,1969,lime,',
    'Oxbow,1969,limes,',
  ]);
  for (const name of ['Silver Kite', 'Oxbow'])
    await answer(['settle', name, '--as', 'casting', '--collection', collection], 0, playwornProcess);
  const { page } = await start();
  await goTo(page, '/reference/names');
  await page.getByRole('link', { name: 'Settle 5 variations seen' }).click();
  const grid = page.getByRole('grid', { name: 'Variations seen' });
  await expect(grid).toBeFocused();
  await expect(grid.getByRole('row')).toHaveCount(6);
  await picture(page, 'names-seen');
  expect(await breaches(page)).toEqual([]);
  await grid.getByText('lime', { exact: true }).first().click();
  await page.keyboard.press('Enter');
  await expect(page.getByText('Settled: 1 car and 0 sale records identified further')).toBeVisible();
  await grid.getByText('limes', { exact: true }).click();
  await page.keyboard.press('w');
  await expect(page.getByRole('option').first()).toHaveText(/lime/);
  await settled(page);
  await picture(page, 'names-seen-word');
  expect(await breaches(page)).toEqual([]);
  await page.keyboard.press('Enter');
  await expect(grid.getByRole('row')).toHaveCount(4);
  await page.keyboard.press('Control+a');
  await page.keyboard.press('n');
  await expect(page.getByRole('heading', { name: 'Nothing is left to settle' })).toBeVisible();
  await goTo(page, '/cars');
  await expect(page.getByText('unidentified')).toHaveCount(0);
});
