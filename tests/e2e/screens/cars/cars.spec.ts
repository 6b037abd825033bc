import { execFile } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import type { Page } from '@playwright/test';
import sharp from 'sharp';
import { expect, test } from '../../fixtures.ts';
import { root } from '../../hosts.ts';
import { breaches, goTo, settled } from '../../looking.ts';

const grid = (page: Page) => page.getByRole('grid', { name: 'Cars' });
const shownCount = async (page: Page) => {
  const totals = page.getByRole('status', { name: 'Totals of the cars shown' });
  return Number((await totals.locator('strong').first().textContent())?.replaceAll(',', ''));
};

test('the list is filtered, ticked and changed in bulk by keyboard, and undone', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/cars');
  await expect(grid(demo)).toBeFocused();
  const all = await shownCount(demo);
  expect(all).toBe(90);
  await picture(demo, 'cars-grid');
  await demo.keyboard.press('f');
  await demo.keyboard.type('ember');
  await expect(demo).toHaveURL(/text=ember/);
  await settled(demo);
  const some = await shownCount(demo);
  expect(some).toBeLessThan(all);
  await demo.keyboard.press('Enter');
  await demo.keyboard.press('Control+a');
  await demo.keyboard.press(' ');
  const bar = demo.getByRole('region', { name: 'Change the chosen cars' });
  await expect(bar.getByText(`${some} cars`)).toBeVisible();
  await bar.getByRole('textbox', { name: 'New location' }).fill('Glass case');
  await demo.keyboard.press('Enter');
  await expect(demo.getByText(`Moved ${some} cars to Glass case`).first()).toBeVisible();
  await goTo(demo, '/cars?text=glass+case');
  await expect.poll(() => shownCount(demo)).toBe(some);
  await demo.keyboard.press('Control+z');
  await expect(demo.getByText('No cars match')).toBeVisible();
  await demo.getByRole('button', { name: 'Show all cars' }).click();
  await expect.poll(() => shownCount(demo)).toBe(all);
  expect(await breaches(demo)).toEqual([]);
});

test('the links of Home and the photo wall show the cars that they mean', async ({ demo, picture }) => {
  await goTo(demo, '/cars?show=unidentified');
  await expect(demo.getByRole('button', { name: 'not identified' })).toBeVisible();
  expect(await shownCount(demo)).toBe(2);
  await goTo(demo, '/cars?view=wall&order=worth');
  const cards = demo.locator('[data-place]');
  await settled(demo);
  expect(await cards.count()).toBeLessThan(60);
  await cards.first().focus();
  await demo.keyboard.press('End');
  await expect(demo.locator('[data-place="89"]')).toBeFocused();
  await demo.keyboard.press('Home');
  await expect(demo.locator('[data-place="0"]')).toBeFocused();
  await picture(demo, 'cars-wall');
  expect(await breaches(demo)).toEqual([]);
  await demo.keyboard.press('Enter');
  await expect(demo).toHaveURL(/#\/cars\/\d+$/);
  await demo.getByRole('link', { name: '‹ Cars' }).click();
  await expect(demo).toHaveURL(/view=wall/);
});

test('a restored car says so, compares before and after, and opens its worth down to the sales', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/cars?finish=restored&status=kept');
  await expect(grid(demo)).toBeFocused();
  await demo.keyboard.press('Control+Enter');
  await expect(demo.getByText(/^Restored: this is not the factory finish\./)).toBeVisible();
  const line = demo.getByRole('slider', { name: 'Line between before and after' });
  await line.focus();
  await demo.keyboard.press('End');
  await expect(line).toHaveAttribute('aria-valuetext', '100 % before, 0 % after');
  await picture(demo, 'car');
  expect(await breaches(demo)).toEqual([]);
  await demo.getByRole('button', { name: 'Restored net of cost' }).click();
  const evidence = demo.getByRole('region', { name: 'Evidence' });
  await expect(evidence.getByRole('radio', { name: 'Restored' })).toBeChecked();
  await expect(evidence.getByText(/\d+ % this variation’s|\d+ % its casting’s/)).toBeVisible();
  const record = evidence.getByRole('button', { expanded: false }).first();
  await record.click();
  await evidence.getByRole('link', { name: 'Open this sale record' }).click();
  await expect(demo).toHaveURL(/#\/sales\?record=\d+$/);
});

test('overruling what keeps a fine original needs a reason', async ({ demo, picture }) => {
  await goTo(demo, '/cars?finish=original&grade=9-10&status=kept');
  await expect(grid(demo)).toBeFocused();
  await demo.keyboard.press('Control+Enter');
  await expect(demo.getByText(/a factory finish can be removed only once/).first()).toBeVisible();
  await demo.getByRole('button', { name: 'Choose restore' }).click();
  const decision = demo.getByRole('region', { name: 'Decision' });
  await decision.getByRole('button', { name: 'Decide: restore it' }).click();
  await expect(decision.getByRole('button', { name: 'Decide: restore it' })).toBeVisible();
  await expect(demo.getByText('Decided: restore it')).toHaveCount(0);
  await decision.getByRole('textbox').fill('The lacquer is lifting and cannot be held.');
  await decision.getByRole('button', { name: 'Decide: restore it' }).click();
  await expect(decision.getByText('The lacquer is lifting and cannot be held.')).toBeVisible();
  await expect(decision.getByText(/This overruled a caution against painting it/)).toBeVisible();
  await picture(demo, 'car-guarded');
});

test('a new car is identified by its features, photographed, planned, sold, and undone', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/cars');
  await expect(grid(demo)).toBeFocused();
  await demo.keyboard.press('n');
  await expect(demo.getByText('Not identified yet.')).toBeVisible();
  await expect(demo.getByText('A plan needs to know what the car is.')).toBeVisible();
  expect(await breaches(demo)).toEqual([]);

  const casting = demo.getByRole('combobox', { name: 'Casting, or casting and color' });
  await casting.fill('Larkhythe');
  await casting.press('Enter');
  const identify = demo.getByRole('region', { name: 'Identify it' });
  await expect(identify.getByText(/variations are left:/)).toBeVisible();
  await identify.getByRole('button', { pressed: false }).first().click();
  await identify.getByRole('button', { name: 'this one' }).first().click();
  await expect(demo.getByRole('heading', { level: 1 })).toContainText('Larkhythe');

  await demo.getByRole('combobox', { name: 'Grade' }).first().selectOption('4.5');
  await expect(demo.getByText('proposed', { exact: true })).toBeVisible();
  const plan = demo.getByRole('region', { name: 'Plan' });
  await expect(plan.getByText(/taken as C4.5, to C9/).first()).toBeVisible();
  await plan.getByRole('textbox', { name: 'A step of your own' }).fill('Weak acid bath');
  await plan.getByRole('button', { name: 'Add step' }).click();
  await expect(plan.getByText('Do not put zinc alloy in acid, not even briefly')).toBeVisible();
  await plan.getByRole('button', { name: 'Take out Pick grooves and corners clean, wet' }).click();
  await expect(plan.getByText('Taken out:')).toBeVisible();
  await expect(plan.getByText('Changed, not saved yet.')).toBeVisible();
  await plan.getByText('Compare with another plan').click();
  await plan.getByRole('combobox', { name: 'Plan to compare with' }).selectOption('kind:restore');
  await expect(plan.getByRole('columnheader', { name: 'Restore, as proposed' })).toBeVisible();
  await settled(demo);
  await picture(demo, 'car-plan');
  expect(await breaches(demo)).toEqual([]);
  await plan.getByRole('button', { name: 'Save as this car’s plan' }).click();
  await expect(plan.getByText('This car’s own plan,')).toBeVisible();

  const bytes = await sharp({ create: { width: 60, height: 40, channels: 3, background: '#884422' } })
    .jpeg()
    .toBuffer();
  await demo
    .locator('input[type="file"]')
    .setInputFiles({ name: 'side.jpg', mimeType: 'image/jpeg', buffer: bytes });
  await expect(demo.getByRole('button', { name: /^Enlarge/ })).toBeVisible();

  await demo.getByRole('button', { name: 'Sell this car' }).click();
  const books = demo.getByRole('region', { name: 'Cost and sale' });
  await books.getByRole('textbox', { name: 'Proceeds' }).fill('120');
  await books.getByRole('textbox', { name: 'Buyer' }).fill('a neighbour');
  await books.getByRole('button', { name: 'Sell it' }).click();
  await expect(books.getByText(/to a neighbour/)).toBeVisible();
  await books.getByRole('button', { name: 'Undo this sale' }).click();
  await expect(books.getByRole('button', { name: 'Sell this car' })).toBeVisible();
});

test('walking from car to car, and the sheet of keys', async ({ demo }) => {
  await goTo(demo, '/cars/4');
  await expect(demo.getByRole('heading', { level: 1 })).toBeVisible();
  await demo.keyboard.press('j');
  await expect(demo).toHaveURL(/#\/cars\/5$/);
  await demo.keyboard.press('[');
  await expect(demo).toHaveURL(/#\/cars\/4$/);
  await demo.keyboard.press('?');
  const sheet = demo.getByRole('dialog', { name: 'Keyboard shortcuts' });
  await expect(sheet.getByText('Next car')).toBeVisible();
  await expect(sheet.getByText('Grade it')).toBeVisible();
  // It lists what works here: this car has no photographs to compare.
  await expect(sheet.getByText('Compare before and after')).toHaveCount(0);
});

test('a car in a collection without evidence takes its owner’s own figure, marked as such', async ({
  start,
  home,
  collection,
  picture,
}) => {
  const file = join(home, 'box.csv');
  writeFileSync(file, 'inventory_number,casting,colour,grade\nA-1,Some saloon,green,4\n');
  const lot = [
    '--as',
    'lot',
    '--collection',
    collection,
    '--price',
    '10.00',
    '--currency',
    'USD',
    '--name',
    'Box',
  ];
  await promisify(execFile)(process.execPath, [
    join(root, 'electron/cli/playworn.mjs'),
    'import',
    file,
    ...lot,
  ]);
  const { page } = await start();
  await goTo(page, '/cars');
  await expect(grid(page)).toBeFocused();
  await page.keyboard.press('Control+Enter');
  const worth = page.getByRole('region', { name: 'Value', exact: true });
  await expect(worth.getByText('not enough evidence').first()).toBeVisible();
  await worth.getByRole('button', { name: 'Enter your own figure' }).click();
  for (const [label, amount] of [
    ['Low', '20'],
    ['Middle', '30'],
    ['High', '45'],
  ] as const)
    await worth.getByRole('textbox', { name: label }).fill(amount);
  await page.keyboard.press('Tab');
  await worth.getByRole('button', { name: 'Save' }).click();
  await expect(worth.getByText('own figure', { exact: true })).toBeVisible();
  await expect(worth.getByText('used because there is too little evidence')).toBeVisible();
  await picture(page, 'car-own-figure');
  expect(await breaches(page)).toEqual([]);
});

test('the notice of what was done covers no row, no total, and nothing of the bar that is needed', async ({
  demo,
  picture,
}) => {
  await demo.setViewportSize({ width: 768, height: 720 });
  await goTo(demo, '/cars');
  // A notice goes by the clock; here it is looked at for as long as it takes.
  await demo.evaluate(() => {
    const put = window.setTimeout;
    window.setTimeout = ((what: TimerHandler, after = 0, ...rest: unknown[]) =>
      after >= 8000 ? 0 : put(what, after, ...rest)) as typeof window.setTimeout;
  });
  await expect(grid(demo)).toBeFocused();
  await demo.keyboard.press('x');
  const change = demo.getByRole('region', { name: 'Change the chosen cars' });
  await change.getByRole('textbox', { name: 'New location' }).fill('Glass case');
  await demo.keyboard.press('Enter');
  await expect(demo.getByText('Moved Q-001 to Glass case').first()).toBeVisible();
  const rowsAndTotals = [grid(demo), demo.getByRole('status', { name: 'Totals of the cars shown' })];
  const bar = demo.getByRole('banner');
  const besideTheBar = () =>
    expect
      .poll(async () => {
        const notice = await demo.locator('.mantine-Notification-root').first().boundingBox();
        const needed = await Promise.all(
          [/^Search everything/, /drawer/, /^More$/].map(name =>
            bar.getByRole('button', { name }).boundingBox(),
          ),
        );
        return needed.every(
          box => notice && box && (box.x + box.width <= notice.x || notice.x + notice.width <= box.x),
        );
      })
      .toBe(true);
  for (const width of [768, 400, 1024, 1101, 1270, 1440]) {
    await demo.setViewportSize({ width, height: 720 });
    await besideTheBar();
    // Its words and its offer are to be seen.
    await expect(
      demo.locator('.mantine-Notification-root').getByRole('button', { name: 'Undo' }),
    ).toBeInViewport({
      ratio: 1,
    });
    await expect
      .poll(async () => {
        const notice = await demo.locator('.mantine-Notification-root').first().boundingBox();
        const covered = await Promise.all(rowsAndTotals.map(one => one.boundingBox()));
        return covered.every(box => notice && box && notice.y + notice.height <= box.y);
      })
      .toBe(true);
    await picture(demo, `cars-notice-${width}`);
  }
  // A collection is called as its folder is, which may be long.
  await bar
    .getByText(/^A collector’s drawer|^A collector's drawer/)
    .evaluate(name => name.prepend('The cars of the attic, the shed and of '));
  await besideTheBar();
  await demo.setViewportSize({ width: 1280, height: 720 });
  await besideTheBar();
});
