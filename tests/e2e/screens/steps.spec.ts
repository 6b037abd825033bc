import { expect, test } from '../fixtures.ts';
import { breaches, fromTheTop, goTo, settled } from '../looking.ts';

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
  await minutes.fill('30');
  await minutes.press('Tab');
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
