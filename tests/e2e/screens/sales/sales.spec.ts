import type { Page } from '@playwright/test';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo, settled, startEmpty } from '../../looking.ts';

const grid = (page: Page) => page.getByRole('grid', { name: 'Sale records' });
const tally = (page: Page, name: string) => page.getByRole('radio', { name: new RegExp(`^${name} \\d`) });

test('doubtful sales say why, and one is left out with a reason and taken in again', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/sales');
  await expect(grid(demo)).toBeFocused();
  await expect(demo.getByText(/600 sales of 36 castings/)).toBeVisible();
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'sales');
  await goTo(demo, '/sales?show=doubtful');
  await expect(grid(demo).getByText(/^doubtful: 10,590 among \d+ to \d+$/)).toBeVisible();
  await grid(demo).getByText('10,590.00').click();
  await demo.getByRole('button', { name: 'Leave out …' }).click();
  await demo.getByRole('textbox', { name: 'Why it should not count' }).fill('two noughts too many');
  await demo.keyboard.press('Enter');
  await expect(tally(demo, 'Left out')).toHaveAccessibleName('Left out 3');
  await goTo(demo, '/sales?show=left-out');
  await expect(grid(demo).getByText('left out: two noughts too many')).toBeVisible();
  await grid(demo).getByText('10,590.00').click();
  await demo.getByRole('button', { name: 'Include again' }).click();
  await expect(tally(demo, 'Left out')).toHaveAccessibleName('Left out 2');
});

test('a link opens the list at its record, and a casting shows its prices over time', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/sales?record=120');
  const cursor = grid(demo).locator('[data-cursor]');
  await expect(cursor).toHaveText(/^(4 Nov|Nov 4,) 2020$/);
  await goTo(demo, '/sales?casting=1');
  await expect(demo.getByRole('figure')).toContainText('23 sales from');
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'sales-of-a-casting');
});

test('records are added by typing, changed in the grid, filled down as one action, and undone', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/sales?casting=1');
  await expect(grid(demo)).toBeFocused();
  await demo.keyboard.press('Control+i');
  const form = demo.getByRole('dialog', { name: 'Add a sale record' });
  const casting = form.getByRole('combobox', { name: 'Casting' });
  await expect(casting).toBeFocused();
  await casting.fill('ashlock');
  await casting.press('Enter');
  await expect(casting).toHaveValue('Ashlock');
  await form.getByRole('textbox', { name: 'Price' }).fill('77.70');
  await form.getByRole('textbox', { name: 'Grade' }).fill('C6.5');
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'sales-add');
  await form.getByRole('button', { name: 'Add', exact: true }).click();
  await expect(form).toBeHidden();
  await expect(tally(demo, 'All')).toHaveAccessibleName('All 24');

  const added = grid(demo).getByRole('row').filter({ hasText: '77.70' });
  await expect(added.locator('[data-cursor]')).toBeVisible();
  await added.getByRole('gridcell').nth(1).click();
  await demo.keyboard.type('88');
  await demo.keyboard.press('Enter');
  await expect(grid(demo).getByText('88.00')).toBeVisible();

  await demo.keyboard.press('Control+Home');
  const gradeOf = (row: number) =>
    grid(demo)
      .locator(`tr[aria-rowindex="${row + 2}"]`)
      .getByRole('gridcell')
      .nth(5);
  const grades = () => Promise.all([0, 1, 2].map(row => gradeOf(row).textContent()));
  const before = await grades();
  await gradeOf(0).click();
  await demo.keyboard.press('Shift+ArrowDown');
  await demo.keyboard.press('Shift+ArrowDown');
  await demo.keyboard.press('Control+d');
  await expect.poll(grades).toEqual([before[0], before[0], before[0]]);
  await demo.keyboard.press('Control+z');
  await expect.poll(grades).toEqual(before);
});

test('in an empty collection, sales, reference and method say what to begin with', async ({
  start,
  collection,
  picture,
}) => {
  const { page } = await start();
  await startEmpty(page, collection);
  await expect(page.getByRole('navigation', { name: 'Places' })).toBeVisible();
  await goTo(page, '/sales');
  await expect(page.getByRole('heading', { name: 'Every value is based on sale records' })).toBeVisible();
  expect(await breaches(page)).toEqual([]);
  await picture(page, 'sales-empty');
  await goTo(page, '/reference');
  await expect(page.getByRole('heading', { name: 'Start with the castings you collect' })).toBeVisible();
  await picture(page, 'reference-empty');
  await goTo(page, '/how-values-are-estimated');
  await expect(page.getByText(/this one is invented, with fourteen invented sales/)).toBeVisible();
  expect(await breaches(page)).toEqual([]);
  await picture(page, 'method-empty');
});

test('what is typed at once into a far row goes into it, though the list has yet to scroll there', async ({
  demo,
}) => {
  await goTo(demo, '/sales');
  const last = grid(demo).locator('tr[aria-rowindex="601"]');
  await grid(demo).focus();
  await demo.keyboard.press('Control+End');
  await settled(demo);
  await expect(last.getByRole('gridcell').nth(1)).toHaveText(/^\d/);
  await demo.keyboard.press('Control+Home');
  await settled(demo);
  await expect(last).toHaveCount(0);
  // A busy page hears late that it has scrolled.
  const release = await demo.evaluateHandle(() => {
    const hold = (event: Event) => event.stopImmediatePropagation();
    window.addEventListener('scroll', hold, true);
    return () => window.removeEventListener('scroll', hold, true);
  });
  for (const key of ['ArrowRight', 'Control+ArrowDown']) await demo.keyboard.press(key);
  await demo.keyboard.type('77.77');
  await demo.keyboard.press('Enter');
  await release.evaluate(end => end());
  await expect(last.getByText('77.77')).toBeVisible();
});

test('a long list is read as it comes into sight, and what is chosen of it is all of it', async ({
  demo,
}) => {
  await goTo(demo, '/sales');
  const rows = grid(demo).getByRole('row');
  const shown = () => rows.evaluateAll(list => list.map(row => Number(row.getAttribute('aria-rowindex'))));
  await expect(grid(demo)).toHaveAttribute('aria-rowcount', '601');
  expect((await shown()).length).toBeLessThan(80);
  await grid(demo).focus();
  await demo.keyboard.press('Control+End');
  await settled(demo);
  expect(await shown()).toContain(601);
  const last = grid(demo).locator('tr[aria-rowindex="601"]');
  const [day, price] = await last.getByRole('gridcell').allTextContents();
  expect(price).toMatch(/^\d/);
  expect((await shown()).length).toBeLessThan(80);

  // What is typed before a far row is here goes into that row.
  await demo.keyboard.press('Control+Home');
  await demo.keyboard.press('ArrowRight');
  await demo.keyboard.press('Control+ArrowDown');
  await demo.keyboard.type('77.77');
  await demo.keyboard.press('Enter');
  await expect(last.getByText('77.77')).toBeVisible();
  await demo.keyboard.press('Control+z');
  await expect(last.getByText(price!)).toBeVisible();

  // The whole list is copied although most of it is out of sight, and can be left out as one action.
  await demo.keyboard.press('Control+Home');
  await demo.keyboard.press('Control+a');
  await expect(demo.getByText('600 records chosen')).toBeVisible();
  const copied = demo.evaluate(
    () =>
      new Promise<string>(resolve => {
        document.addEventListener('copy', event => {
          const text = event.clipboardData?.getData('text/plain');
          if (text) resolve(text);
        });
      }),
  );
  await demo.keyboard.press('Control+c');
  const lines = (await copied).split('\n');
  expect(lines).toHaveLength(600);
  expect(lines.at(-1)).toContain(price!);
  expect(day).toBeTruthy();
  await demo.getByRole('button', { name: 'Leave out …' }).click();
  await demo.getByRole('textbox', { name: 'Why it should not count' }).fill('all of another maker');
  await demo.keyboard.press('Enter');
  await expect(tally(demo, 'Left out')).toHaveAccessibleName('Left out 600');
});
