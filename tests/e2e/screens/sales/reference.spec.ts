import { expect, test } from '../../fixtures.ts';
import { breaches, goTo } from '../../looking.ts';

test('a variation is told by what is seen, and the rest shrink', async ({ demo, picture }) => {
  await goTo(demo, '/reference');
  const castings = demo.getByRole('navigation', { name: 'Castings' });
  await castings.getByRole('textbox', { name: 'Find a casting' }).fill('ash');
  await demo.keyboard.press('ArrowDown');
  await demo.keyboard.press('ArrowDown');
  await demo.keyboard.press('Enter');
  await expect(demo.getByRole('heading', { level: 1, name: 'Ashlock' })).toBeVisible();
  const grid = demo.getByRole('grid', { name: 'Variations of Ashlock' });
  await expect(grid.getByRole('row')).toHaveCount(9);
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'reference-casting');
  await demo
    .getByRole('combobox', { name: 'Color' })
    .or(demo.getByRole('textbox', { name: 'Color' }))
    .click();
  await demo.getByRole('option', { name: /^Inkwell/ }).click();
  await expect(demo.getByText('3 of 8 remain')).toBeVisible();
  await demo
    .getByRole('combobox', { name: 'Rear end' })
    .or(demo.getByRole('textbox', { name: 'Rear end' }))
    .click();
  await demo.getByRole('option', { name: /^fin tail/ }).click();
  await expect(demo.getByText('One variation remains')).toBeVisible();
  await expect(grid.getByRole('row')).toHaveCount(2);
});

test('a casting and a variation are added, opened by the search’s address, and undone', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/reference');
  await demo.getByRole('button', { name: 'Add', exact: true }).click();
  const form = demo.getByRole('dialog', { name: 'Add a casting' });
  await form.getByRole('textbox', { name: 'Name of the casting' }).fill('Bracken Hod');
  expect(await breaches(demo)).toEqual([]);
  await form.getByRole('button', { name: 'Add the casting' }).click();
  await expect(demo.getByRole('heading', { level: 1, name: 'Bracken Hod' })).toBeVisible();
  await demo.getByRole('button', { name: 'Add a variation' }).first().click();
  const variation = demo.getByRole('dialog', { name: 'Add a variation of Bracken Hod' });
  const colour = variation.getByRole('combobox', { name: 'Color' });
  await expect(colour).toBeFocused();
  await colour.fill('Ember');
  await colour.press('Enter');
  expect(await breaches(demo)).toEqual([]);
  await variation.getByRole('button', { name: 'Add the variation' }).click();
  const grid = demo.getByRole('grid', { name: 'Variations of Bracken Hod' });
  await expect(grid.getByText('Ember')).toBeVisible();
  await picture(demo, 'reference-new-casting');
  await demo.getByRole('button', { name: 'Undo', exact: true }).first().click();
  await expect(grid).toBeHidden();
});

test('a casting that is named by cars is not removed, and the reason is said', async ({
  demo,
  expectedComplaints,
}) => {
  expectedComplaints.push(/422/);
  await goTo(demo, '/reference/castings/1');
  await expect(demo.getByRole('heading', { level: 1, name: 'Ashlock' })).toBeVisible();
  await demo.getByRole('button', { name: 'More', exact: true }).last().click();
  await demo.getByRole('menuitem', { name: 'Remove the casting' }).click();
  await expect(demo.getByRole('alert').filter({ hasText: 'Ashlock stays' })).toContainText(
    'is named by 2 cars and 23 sale records',
  );
});

test('a swatch is chosen for a colour', async ({ demo, picture }) => {
  await goTo(demo, '/reference');
  await demo.getByRole('button', { name: 'Ember: choose its swatch' }).click();
  const hex = demo.getByRole('textbox', { name: 'As #rrggbb' });
  await hex.fill('#12ab');
  await expect(demo.getByRole('button', { name: 'Choose', exact: true })).toBeDisabled();
  await hex.fill('#12ab34');
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'reference-swatch');
  await demo.keyboard.press('Enter');
  await expect(demo.getByText('Swatch of Ember chosen')).toBeVisible();
  await demo.getByRole('button', { name: 'Ember: choose its swatch' }).click();
  await expect(hex).toHaveValue('#12ab34');
});

test('a release’s changed part, a casting’s parts and a series are typed', async ({ demo, picture }) => {
  await goTo(demo, '/reference/castings/1');
  await expect(demo.getByRole('heading', { level: 1, name: 'Ashlock' })).toBeVisible();
  await demo
    .getByRole('button', { name: /^Edit the release Ashlock/ })
    .first()
    .click();
  const release = demo.getByRole('dialog');
  await release.getByRole('textbox', { name: 'Changed part' }).fill('wider base');
  await picture(demo, 'reference-release');
  expect(await breaches(demo)).toEqual([]);
  await release.getByRole('button', { name: 'Save' }).click();
  await expect(demo.getByText('changed: wider base')).toBeVisible();
  await demo.keyboard.press('e');
  const casting = demo.getByRole('dialog', { name: 'Edit Ashlock' });
  await casting.getByRole('textbox', { name: 'axles', exact: true }).fill('1.10 mm, thread M1.2');
  await picture(demo, 'reference-parts');
  expect(await breaches(demo)).toEqual([]);
  await casting.getByRole('button', { name: 'Save' }).click();
  await expect(demo.getByText('1.10 mm, thread M1.2')).toBeVisible();
  await goTo(demo, '/reference');
  await demo.getByRole('table').getByRole('button').first().click();
  const series = demo.getByRole('dialog');
  await series.getByRole('textbox', { name: 'Country of the maker' }).fill('Wrenmoor');
  await picture(demo, 'reference-series');
  expect(await breaches(demo)).toEqual([]);
  await series.getByRole('button', { name: 'Save' }).click();
  await expect(series).toBeHidden();
});

test('the values that a feature can take are typed, offered to a new variation, and undone', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/reference/castings/1');
  await expect(demo.getByRole('heading', { level: 1, name: 'Ashlock' })).toBeVisible();
  const form = demo.getByRole('dialog', { name: 'Edit Ashlock' });
  const wheels = form.getByRole('textbox', { name: 'Values: Wheels' });
  /** The page asks again after a write; a form that was opened before shows what was. */
  const stands = (text: string) =>
    expect(async () => {
      await demo.keyboard.press('e');
      await expect(form).toBeVisible();
      const found = await wheels.inputValue();
      await form.getByRole('button', { name: 'Cancel' }).click();
      await expect(form).toBeHidden();
      expect(found).toBe(text);
    }).toPass();
  await demo.keyboard.press('e');
  const before = await wheels.inputValue();
  await wheels.fill(`${before}\nwire-spoked\n\nwire-spoked`);
  await wheels.scrollIntoViewIfNeeded();
  await picture(demo, 'reference-values');
  expect(await breaches(demo)).toEqual([]);
  await form.getByRole('button', { name: 'Save' }).click();
  await expect(form).toBeHidden();
  await stands(`${before}\nwire-spoked`);
  await demo.getByRole('button', { name: 'Add a variation' }).first().click();
  const variation = demo.getByRole('dialog');
  await variation.getByRole('combobox', { name: 'Wheels' }).fill('wire');
  await expect(demo.getByRole('option', { name: 'wire-spoked' })).toBeVisible();
  await variation.getByRole('button', { name: 'Cancel' }).click();
  await expect(variation).toBeHidden();
  await demo.keyboard.press('Control+z');
  await stands(before);
});
