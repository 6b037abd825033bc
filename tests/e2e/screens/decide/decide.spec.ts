import { execFile } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { carsToDecide } from '../../deciding.ts';
import { expect, test } from '../../fixtures.ts';
import { root } from '../../hosts.ts';
import { breaches, goTo, settled, startEmpty } from '../../looking.ts';

const run = promisify(execFile);

test('choosing what to restore: the sentence narrows, the best set is found, and recording it is one undo', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/decide');
  await expect(demo.getByRole('heading', { level: 1, name: 'Decide' })).toBeVisible();
  const grid = demo.getByRole('grid', { name: 'Cars to decide' });
  await expect(grid).toBeFocused();
  const rows = async () => Number(await grid.getAttribute('aria-rowcount')) - 1;
  const all = await rows();
  expect(all).toBeGreaterThan(50);

  await demo.getByRole('button', { name: 'Recommendation: anything' }).click();
  await demo.getByRole('menuitemcheckbox', { name: 'restore' }).click();
  await demo.getByRole('menuitemcheckbox', { name: 'conserve' }).click();
  await demo.keyboard.press('Escape');
  await expect.poll(() => new URL(demo.url()).hash).toContain('conserve');
  await settled(demo);
  await expect.poll(rows).toBeLessThan(all);
  const few = await rows();
  await expect(demo.getByText(`${few} of ${all} cars`)).toBeVisible();

  const season = demo.getByRole('region', { name: 'Season' });
  await season.getByLabel('Hours available').fill('35');
  await season.getByLabel('Hours available').press('Enter');
  await season.getByRole('button', { name: 'Choose the best set' }).click();
  await expect(demo.getByRole('heading', { name: 'Take them in this order' })).toBeVisible();
  const order = demo.getByRole('tabpanel').locator('ol').first().locator('> li');
  const chosen = await order.count();
  expect(chosen).toBeGreaterThan(1);
  expect(chosen).toBeLessThan(few);
  // Of all that can be done: some are conserved, some restored; and what would come next says what it needs.
  const doing = demo.getByRole('tabpanel').getByRole('combobox');
  const options = () => doing.evaluateAll(list => list.map(one => (one as HTMLSelectElement).value));
  expect(new Set(await options())).toEqual(new Set(['conserve', 'restore']));
  await expect(demo.getByRole('heading', { name: /^The next car/ })).toBeVisible();
  await expect(demo.getByText(/^needs .* h more/).first()).toBeVisible();
  // What is on the bench without this season stays out of it, and is said to be there.
  const benched = demo
    .getByRole('region', { name: 'Left out' })
    .getByRole('listitem')
    .filter({ hasText: 'Q-075' });
  await expect(benched).toContainText('on the bench already');
  await benched.getByRole('button').click();
  await expect(grid.getByRole('button', { name: 'Q-075: on the bench, not in the season' })).toBeVisible();
  await demo.getByRole('tab', { name: /^Season/ }).click();
  await expect(season.getByTitle('In 8 cases of 10 it is between these')).toBeVisible();
  await picture(demo, 'decide-season');
  expect(await breaches(demo)).toEqual([]);

  // Space takes a car of it out and puts it back, and the sums follow.
  const record = (count: number) => season.getByRole('button', { name: `Record ${count} decisions` });
  await order.first().getByRole('button').click();
  await grid.focus();
  await demo.keyboard.press('Space');
  await expect(record(chosen - 1)).toBeVisible();
  await demo.keyboard.press('Space');
  await record(chosen).click();
  const dialog = demo.getByRole('dialog');
  const decided = grid.getByText(/^✓ /);
  const before = await decided.count();
  await expect(dialog.getByRole('listitem')).toHaveCount(chosen);
  await dialog.getByRole('button', { name: `Record ${chosen} decisions` }).click();
  await expect(dialog).toBeHidden();
  await expect(decided).not.toHaveCount(before);
  await demo.getByRole('button', { name: 'Undo', exact: true }).last().click();
  await expect(decided).toHaveCount(before);
});

test('a season is saved with the collection: others beside it, and the same for every host that opens it', async ({
  demo,
  picture,
}) => {
  await carsToDecide(demo, 'recommendation=restore');
  await demo.keyboard.press('Space');
  const season = demo.getByRole('region', { name: 'Season' });
  await season.getByLabel('Hours available').fill('12');
  await season.getByLabel('Hours available').press('Enter');
  const bench = season.getByRole('button', { name: 'Put 1 on the bench' });
  await expect(bench).toBeEnabled();
  const menu = season.getByRole('button', { name: /^Season: / });
  await expect(menu).toHaveAccessibleName(/^Season: Season \d{4}$/);
  const first = (await menu.getAttribute('aria-label'))?.replace('Season: ', '') ?? '';

  // Nothing of it is kept in the page.
  await demo.reload();
  await expect(bench).toBeVisible();
  await expect(season.getByLabel('Hours available')).toHaveValue('12');

  await menu.click();
  await demo.getByRole('menuitem', { name: 'New season…' }).click();
  const dialog = demo.getByRole('dialog');
  await dialog.getByLabel('Name').fill(first);
  await dialog.getByRole('button', { name: 'Make the season' }).click();
  await expect(dialog.getByText('There is already a season with that name.')).toBeVisible();
  expect(await breaches(demo)).toEqual([]);
  await dialog.getByLabel('Name').fill('Long evenings');
  await dialog.getByRole('button', { name: 'Make the season' }).click();
  await expect(menu).toHaveAccessibleName('Season: Long evenings');
  await expect(season.getByRole('button', { name: 'Put on the bench' })).toBeDisabled();
  await menu.click();
  await picture(demo, 'decide-seasons');
  await demo.getByRole('menuitem', { name: new RegExp(`^${first}`) }).click();
  await expect(bench).toBeVisible();
});

test('a guarded car is restored only with a reason, and the chart and the list have one cursor', async ({
  demo,
}) => {
  const grid = await carsToDecide(demo, 'finish=original&not=common,uncommon');
  const number = async () => {
    const cell = await grid.getAttribute('aria-activedescendant');
    return demo.locator(`[id="${cell?.replace(/-c\d+$/, '-c0')}"]`).textContent();
  };
  const first = await number();
  await demo.getByRole('button', { name: /^Chart:/ }).focus();
  await demo.keyboard.press('ArrowLeft');
  await expect.poll(number).not.toBe(first);
  const car = (await number()) ?? '';

  await grid.focus();
  await demo.keyboard.press('m');
  const season = demo.getByRole('region', { name: 'Season' });
  // Of itself it would be conserved: to restore it is its owner's choice.
  await demo.getByRole('tab', { name: /^Season/ }).click();
  const doing = demo.getByLabel(`What to do with ${car}`);
  await expect(doing).toHaveValue('conserve');
  await doing.selectOption('restore');
  await season.getByRole('button', { name: 'Record 1 decision', exact: true }).click();
  const dialog = demo.getByRole('dialog');
  await expect(dialog.getByText(car).first()).toBeVisible();
  await dialog.getByRole('button', { name: 'Record the decision' }).click();
  await expect(dialog.getByText('Say why the finish may be removed anyway.')).toBeVisible();
  await dialog
    .getByRole('textbox', { name: /Why, against these cautions/ })
    .fill('Half of it is gone already');
  await dialog.getByRole('button', { name: 'Record the decision' }).click();
  await expect(dialog).toBeHidden();

  await grid.focus();
  await demo.keyboard.press('Enter');
  await expect(demo.getByRole('dialog').getByText('Half of it is gone already').first()).toBeVisible();
  await expect(demo.getByRole('dialog').getByText(/What the gain of restoring it depends on/)).toBeVisible();
  expect(await breaches(demo)).toEqual([]);
});

test('deciding can be done by everyone, menus and dialogs too, and with nothing to decide', async ({
  demo,
  picture,
}) => {
  await carsToDecide(demo);
  await picture(demo, 'decide');
  expect(await breaches(demo)).toEqual([]);
  await demo.getByRole('button', { name: 'Finish: any' }).press('Enter');
  await demo.keyboard.press('ArrowDown');
  await expect(demo.getByRole('menuitemcheckbox', { name: 'original' })).toBeVisible();
  expect(await breaches(demo)).toEqual([]);
  await demo.keyboard.press('Escape');
  await goTo(demo, '/decide?finish=restored&below=2');
  await expect(demo.getByRole('heading', { name: 'No cars match' })).toBeVisible();
  expect(await breaches(demo)).toEqual([]);
  await demo.getByRole('button', { name: 'Weigh all cars' }).click();
  await expect(demo.getByRole('grid', { name: 'Cars to decide' })).toBeVisible();
});

test('with nothing to decide it says how to begin', async ({ start, collection, picture }) => {
  const { page } = await start();
  await startEmpty(page, collection);
  await expect(page.getByRole('navigation').first()).toBeVisible();
  await goTo(page, '/decide');
  await expect(page.getByRole('heading', { name: 'No car waits for a decision' })).toBeVisible();
  await picture(page, 'decide-empty');
  expect(await breaches(page)).toEqual([]);
});

test('without sale records it says what would help, and makes up no figure', async ({
  start,
  home,
  collection,
  picture,
}) => {
  const list = join(home, 'cars.csv');
  writeFileSync(list, 'inventory_number,casting,grade\nT-001,Saltmarsh,4\nT-002,Quarryman,7.5\n');
  const command = join(root, 'electron/cli/playworn.mjs');
  await run(process.execPath, [command, 'import', list, '--as', 'lot', '--collection', collection]);
  const { page } = await start();
  await goTo(page, '/decide');
  const help = page.getByRole('region', { name: 'What would help' });
  await expect(help.getByRole('heading', { name: /not enough evidence/ })).toBeVisible();
  await expect(help.getByRole('listitem').first()).toContainText(
    'Settle the name “Quarryman”: 1 car can then be compared with sales.',
  );
  await expect(page.getByRole('grid', { name: 'Cars to decide' }).getByText('T-002')).toBeVisible();
  await expect(page.getByRole('region', { name: 'Season' })).toHaveCount(0);
  await picture(page, 'decide-no-evidence');
  expect(await breaches(page)).toEqual([]);
});

test('on a narrow screen list, chart, and car and season are shown in turn, each with the room there is', async ({
  demo,
  host,
  picture,
}) => {
  test.skip(host === 'window', 'SKIPPED in the window: its size is the user’s.');
  await demo.setViewportSize({ width: 400, height: 800 });
  await goTo(demo, '/decide');
  const grid = demo.getByRole('grid', { name: 'Cars to decide' });
  const chart = demo.getByRole('region', { name: 'Gain against probability' });
  const beside = demo.getByRole('tabpanel');
  const view = (name: string) =>
    demo.getByRole('radiogroup', { name: 'What to show' }).getByText(name, { exact: true }).click();
  const within = async (place: typeof grid, least: number) => {
    const box = (await place.boundingBox())!;
    expect(box.height).toBeGreaterThan(least);
    expect(box.y + box.height).toBeLessThanOrEqual(800);
    expect(box.x + box.width).toBeLessThanOrEqual(400);
  };
  // Half of the screen and more is the list: eight cars and their headings.
  await expect(grid).toBeFocused();
  await within(demo.locator('div:has(> [role="grid"])'), 400);
  await expect(chart).toHaveCount(0);
  await settled(demo);
  await picture(demo, 'decide-400');
  expect(await breaches(demo)).toEqual([]);

  await view('Chart');
  await expect(grid).toBeHidden();
  await within(chart, 400);
  await expect(beside).toBeHidden();
  await settled(demo);
  await picture(demo, 'decide-400-chart');
  await view('Car, season');
  await demo.getByRole('tab', { name: /^Season/ }).click();
  await expect(chart).toBeHidden();
  await within(beside, 200);
  await expect(demo.getByRole('button', { name: 'Put on the bench' })).toBeInViewport({ ratio: 1 });
  await settled(demo);
  await picture(demo, 'decide-400-season');
  expect(await breaches(demo)).toEqual([]);
  await view('List');
  await expect(grid).toBeVisible();

  // A tablet has the season below each of them.
  await demo.setViewportSize({ width: 768, height: 1024 });
  await expect(demo.getByRole('region', { name: 'Season' })).toBeVisible();
  await expect(chart).toHaveCount(0);
  expect((await demo.locator('div:has(> [role="grid"])').boundingBox())!.height).toBeGreaterThan(400);
  await settled(demo);
  await picture(demo, 'decide-768');
  expect(await breaches(demo)).toEqual([]);

  // With more room they stand together.
  await demo.setViewportSize({ width: 1280, height: 800 });
  await expect(chart).toBeVisible();
  await expect(grid).toBeVisible();
});
