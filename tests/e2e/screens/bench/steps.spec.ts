import { expect, test } from '../../fixtures.ts';
import { breaches, fromTheTop, goTo, settled } from '../../looking.ts';

test('the steps of work are changed, added to and saved as a version, and undone', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/settings?part=steps');
  const steps = demo.getByRole('region', { name: 'Steps of work' });
  await expect(steps.getByText(/common practice, no source/)).toBeVisible();
  await expect(steps.getByText('axles below C8')).toBeVisible();
  await steps
    .getByRole('button', { name: 'Change the step Straighten the axles and roll them on glass' })
    .click();
  const minutes = steps.getByRole('textbox', { name: /Minutes of your own.* of Straighten.*, likely/ });
  // What is no number is said where it stands, and nothing is taken over.
  await minutes.fill('an hour');
  await minutes.press('Tab');
  await expect(minutes).toHaveAccessibleDescription('A number from 0 to 100000 is needed here.');
  await expect(demo.getByRole('tooltip', { name: /^A number from 0 to/ })).toBeVisible();
  await picture(demo, 'settings-step-refused');
  await expect(steps.getByRole('button', { name: /^Save as version/ })).toHaveCount(0);
  await minutes.fill('30');
  await minutes.press('Tab');
  await expect(demo.getByRole('tooltip')).toHaveCount(0);
  // Everything that a step says can be changed where it stands.
  await expect(steps.getByRole('combobox', { name: 'Only where the part is below' })).toHaveValue('C8');
  await steps.getByRole('combobox', { name: 'Origin of the part' }).click();
  await demo.getByRole('option', { name: 'original', exact: true }).click();
  await demo.keyboard.press('Escape');
  await steps.getByRole('combobox', { name: 'Makes the part' }).click();
  await demo.getByRole('option', { name: 'period replacement' }).click();
  await steps.getByRole('combobox', { name: 'Parts that go with it' }).click();
  await demo
    .getByRole('listbox', { name: 'Parts that go with it' })
    .getByRole('option', { name: 'wheels', exact: true })
    .click();
  await demo.keyboard.press('Escape');
  await expect(steps.getByText('axles below C8; axles original', { exact: true })).toBeVisible();
  await steps.getByRole('checkbox', { name: /Only where you ask for it/ }).check();
  await expect(steps.getByText('only where you ask for it; axles below C8; axles original')).toBeVisible();
  await settled(demo);
  await picture(demo, 'settings-step-open');
  await steps.getByRole('checkbox', { name: /Only where you ask for it/ }).uncheck();
  await steps.getByRole('textbox', { name: 'Name of a new step' }).fill('Warm the room');
  await steps.getByRole('button', { name: 'Add step' }).click();
  await settled(demo);
  await picture(demo, 'settings-steps');
  await fromTheTop(demo);
  expect(await breaches(demo)).toEqual([]);
  await steps.getByRole('textbox', { name: 'Reason for the change (optional)' }).fill('I am slow at axles');
  await steps.getByRole('button', { name: 'Save as version 1' }).click();
  await expect(steps.getByText('version 1: I am slow at axles')).toBeVisible();
  await expect(steps.getByText('4–30–30')).toBeVisible();
  await demo.keyboard.press('Control+z');
  await expect(steps.getByText('the starting points, unchanged')).toBeVisible();
});
