import { expect, test } from '../../fixtures.ts';
import { breaches, goTo } from '../../looking.ts';
import { savedList } from '../../saved-list.ts';

test('the list of cars is saved as it is shown, and whole', async ({ demo, picture }) => {
  await goTo(demo, '/cars?finish=restored&sort=-grade&columns=grade,lot,gain');
  const grid = demo.getByRole('grid', { name: 'Cars' });
  const shown = Number(await grid.getAttribute('aria-rowcount')) - 1;
  await demo.getByRole('button', { name: 'Export' }).press('Enter');
  await expect(demo.getByRole('menuitem', { name: 'Whole list: CSV' })).toBeVisible();
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'cars-export');
  await demo.keyboard.press('Escape');
  const { name, heads, rows: cars } = await savedList(demo, 'As shown: CSV');
  expect(name).toMatch(/^cars-.*\.csv$/);
  expect(heads).toEqual(['inventory_number', 'grade', 'lot', 'currency', 'expected_gain', 'finish_state']);
  expect(cars).toHaveLength(shown);
  expect(new Set(cars.map(car => car[5]))).toEqual(new Set(['restored']));
  const grades = cars.map(car => Number(car[1]));
  expect(grades).toEqual(grades.toSorted((a, b) => b - a));
  const whole = await savedList(demo, 'Whole list: CSV');
  expect(whole.rows.length).toBeGreaterThan(cars.length);
  expect(whole.heads).toEqual(expect.arrayContaining(['notes', 'as_found_mid']));
});

test('the list of sale records is saved as it is shown, on a narrow window and in the dark', async ({
  demo,
  picture,
}) => {
  await demo.emulateMedia({ colorScheme: 'dark' });
  await demo.setViewportSize({ width: 390, height: 844 });
  await goTo(demo, '/sales?source=fair&sort=price');
  const { column } = await savedList(demo, 'As shown: CSV');
  expect(new Set(column('source'))).toEqual(new Set(['fair']));
  await demo.getByRole('button', { name: 'Export' }).press('Enter');
  await expect(demo.getByRole('menuitem', { name: 'As shown: CSV' })).toBeVisible();
  await picture(demo, 'sales-export-narrow-dark');
});

test('the list of Decide is saved as it is shown, in the order that its reader chose', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/decide?finish=original&decided=undecided');
  const grid = demo.getByRole('grid', { name: 'Cars to decide' });
  await grid.getByRole('columnheader', { name: /^Grade/ }).click();
  await expect(grid.getByRole('columnheader', { name: /^Grade/ })).toHaveAttribute('aria-sort', 'descending');
  const shown = Number(await grid.getAttribute('aria-rowcount')) - 1;
  const { name, rows: cars, column } = await savedList(demo, 'As shown: CSV');
  expect(name).toMatch(/^decisions-.*\.csv$/);
  expect(cars).toHaveLength(shown);
  expect(new Set(column('finish_state'))).toEqual(new Set(['original']));
  const grades = column('grade')
    .map(Number)
    .filter(grade => grade > 0);
  expect(grades).toEqual(grades.toSorted((a, b) => b - a));
  expect((await savedList(demo, 'Whole list: CSV')).rows.length).toBeGreaterThan(cars.length);
  await picture(demo, 'decide-export');
  await demo.setViewportSize({ width: 390, height: 844 });
  await picture(demo, 'decide-export-narrow');
});
