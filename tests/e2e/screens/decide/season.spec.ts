import { carsToDecide } from '../../deciding.ts';
import { expect, test } from '../../fixtures.ts';
import { breaches, inScheme } from '../../looking.ts';

test('colours are proposed for the season, saved with it, and gone to the bench with', async ({
  demo,
  picture,
}) => {
  await carsToDecide(demo, 'recommendation=restore');
  await demo.keyboard.press('Control+A');
  await demo.keyboard.press('Space');
  await demo.getByRole('tab', { name: /^Season/ }).click();
  const plan = demo.getByRole('tabpanel');
  await plan.getByText('Colors for the season').click();
  await expect(plan.getByRole('img', { name: /^Shelf now/ })).toBeVisible();
  const weight = plan.getByRole('slider');
  await weight.focus();
  await demo.keyboard.press('End');
  const save = plan.getByRole('button', { name: 'Save these colors with the season' });
  await expect(save).toBeEnabled();
  await save.click();
  await expect(plan.getByRole('button', { name: 'Saved with the season' })).toBeDisabled();
  const proposed = plan.getByRole('table').getByRole('row');
  const car = (await proposed.nth(1).getByRole('link').textContent()) ?? '';
  const colour = (await proposed.nth(1).getByRole('cell').nth(1).textContent()) ?? '';
  expect(await breaches(demo)).toEqual([]);
  await plan.getByRole('img', { name: /^Then/ }).scrollIntoViewIfNeeded();
  await picture(demo, 'season-colours');
  await inScheme(demo, 'dark');
  await picture(demo, 'season-colours-dark');
  await demo.setViewportSize({ width: 768, height: 1024 });
  await picture(demo, 'season-colours-768');
  await demo.setViewportSize({ width: 1440, height: 900 });
  await inScheme(demo, 'light');

  await demo.reload();
  await expect(demo.getByRole('tab', { name: /^Season/ })).toBeVisible();
  await demo.getByRole('tab', { name: /^Season/ }).click();
  await expect(plan.getByText(/in another color$/)).toBeVisible();
  await demo
    .getByRole('region', { name: 'Season' })
    .getByRole('button', { name: /^Put \d+ on the bench$/ })
    .click();
  await expect(demo.getByRole('heading', { level: 1, name: 'Bench' })).toBeVisible();
  await demo
    .getByRole('link', { name: new RegExp(car) })
    .first()
    .click();
  const job = demo.getByRole('region', { name: `Job on ${car}` });
  await expect(job.getByText(/^to be painted/)).toContainText(colour.split(' ')[0] ?? '');
  await picture(demo, 'bench-to-be-painted');
  expect(await breaches(demo)).toEqual([]);
});

test('a plan to conserve a car is made from it, saved, and shown where it is decided', async ({
  demo,
  picture,
}) => {
  await carsToDecide(demo, 'recommendation=conserve');
  await demo.keyboard.press('Enter');
  const drawer = demo.getByRole('dialog');
  const steps = drawer.getByText(/^\d+ steps to conserve it/);
  await steps.click();
  await expect(drawer.getByRole('listitem').filter({ hasText: 'C' }).first()).toBeVisible();
  await picture(demo, 'decide-steps-to-conserve');
  expect(await breaches(demo)).toEqual([]);
  await drawer.getByRole('link', { name: 'The car’s page' }).click();
  await demo.getByRole('radiogroup', { name: 'Kind of work' }).getByText('conserve').click();
  const section = demo.locator('#plan');
  await section.getByRole('button', { name: 'Save as the plan to conserve it' }).click();
  await expect(section.getByText('This car’s own plan to conserve it,')).toBeVisible();
  await expect(section.getByRole('button', { name: 'Save the plan' })).toBeDisabled();
  await picture(demo, 'plan-to-conserve');
  expect(await breaches(demo)).toEqual([]);
  await section.getByLabel('Name of a template').fill('Gentle care');
  await section.getByRole('button', { name: 'Save as a template' }).click();
  await section.getByRole('button', { name: 'Back to the proposed plan' }).click();
  await expect(section.getByRole('button', { name: 'Save as the plan to conserve it' })).toBeVisible();
  await section.getByLabel('Copy another plan').selectOption('Gentle care');
  await expect(
    section.getByText('“Gentle care” is copied; the steps are those that this car needs.'),
  ).toBeVisible();
});
