import { expect, test } from '../../fixtures.ts';
import { breaches, goTo, settled, startEmpty } from '../../looking.ts';

test('an empty collection is led by its first steps, each list says its own next one', async ({
  start,
  collection,
  picture,
}) => {
  const { page } = await start();
  await startEmpty(page, collection);
  const steps = page.getByRole('list', { name: 'First steps' });
  await expect(steps.getByRole('listitem')).toHaveCount(5);
  await expect(steps.getByRole('link', { name: 'Import your list' })).toBeVisible();
  expect(await breaches(page)).toEqual([]);
  await picture(page, 'young-empty');

  const empty: [string, string, RegExp][] = [
    ['/cars', 'No cars yet', /Import your list/],
    ['/lots', 'Enter your first lot', /New lot/],
    ['/sales', 'Every value is based on sale records', /Paste sales/],
    ['/decide', 'No car waits for a decision', /Import your list/],
    ['/reports', 'Nothing to report yet', /Import your list/],
    ['/reference', 'Start with the castings you collect', /Add a casting/],
    ['/reference/names', 'No name waits yet', /./],
  ];
  for (const [place, heading, next] of empty) {
    await goTo(page, place);
    await expect(page.getByRole('heading', { name: heading })).toBeVisible();
    await expect(page.getByRole('main').getByText(next).first()).toBeVisible();
  }
  await goTo(page, '/settings');
  await expect(page.getByText(/No rates yet/)).toBeVisible();

  // Sales alone: their names wait before there is a car.
  await goTo(page, '/sales/paste');
  await page
    .getByRole('textbox', { name: 'Sales, one a line' })
    .fill('2026-03-14, Brackenhall Van, C8, $61\n2026-03-15, Brackenhall Van, C5, $22');
  await page.keyboard.press('Control+Enter');
  await expect(page.getByRole('button', { name: 'Add 2 sale records' })).toBeVisible();
  await page.keyboard.press('Control+s');
  await expect(page.getByRole('link', { name: '1 name is not in the reference yet' })).toBeVisible();
  await goTo(page, '/');
  await expect(steps.getByText(/1 name waits, of 2 sale records/)).toBeVisible();

  await steps.getByRole('button', { name: 'Put the step “Words settled” away' }).click();
  await expect(steps.getByRole('listitem')).toHaveCount(4);
  await page.keyboard.press('Control+z');
  await expect(steps.getByRole('listitem')).toHaveCount(5);
  await settled(page);
  await picture(page, 'young-sales-only');
});

test('a grown collection has no first steps', async ({ demo }) => {
  await expect(demo.getByText('What to do next')).toBeVisible();
  await expect(demo.getByRole('list', { name: 'First steps' })).toHaveCount(0);
});
