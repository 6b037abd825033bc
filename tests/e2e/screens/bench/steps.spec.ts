import { expect, test } from '../../fixtures.ts';
import { breaches, goTo, inScheme, settled } from '../../looking.ts';

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
  expect(await breaches(demo)).toEqual([]);
  await steps.getByRole('textbox', { name: 'Reason for the change (optional)' }).fill('I am slow at axles');
  await steps.getByRole('button', { name: 'Save as version 1' }).click();
  await expect(steps.getByText('version 1: I am slow at axles')).toBeVisible();
  await expect(steps.getByText('4–30–30')).toBeVisible();
  await demo.keyboard.press('Control+z');
  await expect(steps.getByText('the starting points, unchanged')).toBeVisible();
});

test('each kind of field of a step is filled in, and says beside itself what it cannot take', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/settings?part=steps');
  const steps = demo.getByRole('region', { name: 'Steps of work' });
  await steps.getByRole('textbox', { name: 'Name of a new step' }).fill('Warm the room');
  await steps.getByRole('button', { name: 'Add step' }).click();
  const save = steps.getByRole('button', { name: /^Save as version/ });
  await expect(steps.getByText('1 step changed')).toBeVisible();
  // A text.
  const name = steps.getByRole('textbox', { name: 'What is done' });
  await name.fill(' ');
  await expect(name).toHaveAccessibleDescription('A step needs a name.');
  await expect(save).toHaveCount(0);
  await name.fill('Warm the cellar');
  // A list.
  const kinds = steps.getByRole('combobox', { name: 'Belongs to' });
  await kinds.focus();
  await demo.keyboard.press('Backspace');
  await demo.keyboard.press('Backspace');
  await expect(kinds).toHaveAccessibleDescription('Choose at least one kind of work.');
  await kinds.click();
  await demo.getByRole('listbox', { name: 'Belongs to' }).getByRole('option', { name: 'restore' }).click();
  await demo.keyboard.press('Escape');
  // A choice, and one that no part can have.
  await steps.getByRole('combobox', { name: 'Part', exact: true }).click();
  await demo.getByRole('option', { name: 'axles', exact: true }).click();
  const below = steps.getByRole('combobox', { name: 'Only where the part is below' });
  const from = steps.getByRole('combobox', { name: 'Only where it is at least' });
  await below.click();
  await demo.getByRole('option', { name: 'C4', exact: true }).click();
  await from.click();
  await demo.getByRole('option', { name: 'C6', exact: true }).click();
  await expect(from).toHaveAccessibleDescription('No part is below C4 and at least this.');
  await expect(save).toHaveCount(0);
  await from.click();
  await demo.getByRole('option', { name: 'C2', exact: true }).click();
  // Yes or no.
  await steps.getByRole('checkbox', { name: /Only where the part has a grade of its own/ }).check();
  // A range rises with the figure that is said.
  const minutes = (point: string) =>
    steps.getByRole('textbox', { name: new RegExp(`Minutes of your own.*, ${point}$`) });
  await minutes('low').fill('25');
  await minutes('low').press('Tab');
  await expect(minutes('likely')).toHaveValue('25');
  await expect(minutes('high')).toHaveValue('25');
  // A material, with its cost.
  await steps.getByRole('button', { name: 'Add a material' }).click();
  const material = steps.getByRole('textbox', { name: 'Material 1', exact: true });
  await expect(material).toHaveAccessibleDescription('A material needs a name.');
  await material.fill('Logs');
  const cost = steps.getByRole('textbox', { name: 'likely cost of material 1' });
  await cost.fill('two');
  await cost.press('Tab');
  await expect(cost).toHaveAccessibleDescription(/./);
  await cost.fill('2.50');
  await cost.press('Tab');
  // A number; what it cannot take is not left behind by saving or closing.
  const gain = steps.getByRole('textbox', { name: 'Points that Warm the cellar gains' });
  await gain.fill('0.3');
  await save.click();
  await expect(gain).toHaveAccessibleDescription('A multiple of 0.5 is needed here.');
  await expect(gain).toBeFocused();
  await steps.getByRole('button', { name: 'Change the step Warm the cellar' }).click();
  await expect(gain).toBeFocused();
  await inScheme(demo, 'dark');
  await picture(demo, 'settings-step-fields-dark');
  await demo.setViewportSize({ width: 400, height: 850 });
  // All of it can be seen there, without scrolling sideways.
  for (const [field, part] of [
    [from, 'call'],
    [gain, 'figures'],
    [cost, 'materials'],
  ] as const) {
    await field.scrollIntoViewIfNeeded();
    await settled(demo);
    await expect(field).toBeInViewport({ ratio: 1 });
    await picture(demo, `settings-step-${part}-400`);
  }
  expect(await breaches(demo)).toEqual([]);
  await gain.fill('0.5');
  await gain.press('Tab');
  await save.click();
  await expect(steps.getByText('version 1', { exact: true })).toBeVisible();
  const saved = steps.getByRole('row', { name: /Warm the cellar/ });
  await expect(saved.first()).toContainText('25–25–25');
});
