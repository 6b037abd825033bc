import { picture as photograph } from '../../../helpers/pictures/pictures.ts';
import { carsToDecide } from '../../deciding.ts';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo, inScheme, settled, startEmpty } from '../../looking.ts';

test('an empty bench says its next step', async ({ start, collection, picture }) => {
  const { page } = await start();
  await startEmpty(page, collection);
  await expect(page.getByRole('navigation').first()).toBeVisible();
  await goTo(page, '/bench');
  await expect(page.getByRole('heading', { name: 'Nothing is on the bench' })).toBeVisible();
  await expect(page.getByRole('link', { name: 'Choose cars in Decide' })).toBeVisible();
  await picture(page, 'bench-empty');
  expect(await breaches(page)).toEqual([]);
});

test('from a season to the bench to a record: steps, clock, photographs, parts, the look before closing, and one undo', async ({
  demo,
  picture,
}) => {
  await carsToDecide(demo, 'recommendation=restore&finish=original');
  await demo.keyboard.press('Space');
  await demo.keyboard.press('ArrowDown');
  await demo.keyboard.press('Space');
  const season = demo.getByRole('region', { name: 'Season' });
  await season.getByRole('button', { name: 'Put 2 on the bench' }).click();
  await expect(demo.getByRole('heading', { level: 1, name: 'Bench' })).toBeVisible();
  const job = demo.getByRole('region', { name: /^Job on / });
  await expect(job).toBeVisible();
  const number = ((await job.getAttribute('aria-label')) ?? '').replace('Job on ', '');

  // By keyboard: the first step is ticked off, and the cursor goes on.
  const current = job.locator('[aria-current="step"]');
  const first = await current.getByRole('button', { name: /^Done: / }).getAttribute('aria-label');
  await demo.keyboard.press('x');
  await expect(job.getByRole('button', { name: first ?? '', exact: true })).toHaveAttribute(
    'aria-pressed',
    'true',
  );
  await expect(current.getByRole('button', { name: /^Done: / })).not.toHaveAccessibleName(first ?? '');
  await settled(demo);

  // The clock runs twice on one step.
  for (let session = 0; session < 2; session++) {
    await demo.keyboard.press('t');
    await expect(current.getByRole('timer')).toBeVisible();
    await settled(demo);
    await demo.keyboard.press('t');
    await expect(current.getByRole('timer')).toHaveCount(0);
    await settled(demo);
  }
  await current.getByLabel('Minutes by hand').fill('45');
  await current.getByRole('button', { name: 'Add', exact: true }).click();
  await expect(current.getByText('45 min', { exact: true })).toBeVisible();
  await expect(job.getByText('45 min counted')).toBeVisible();

  await current.locator('input[type=file]').setInputFiles({
    name: 'before.jpg',
    mimeType: 'image/jpeg',
    buffer: Buffer.from(await photograph('jpeg')),
  });
  await expect(current.getByRole('figure')).toBeVisible();
  await settled(demo);

  await job.getByRole('button', { name: 'Part…' }).click();
  await job.getByLabel('From', { exact: true }).selectOption('donor');
  const donor = job.getByLabel('Donor car');
  const donorName = (await donor.locator('option').nth(1).textContent()) ?? '';
  await donor.selectOption({ index: 1 });
  await job.getByLabel('Which part it is').selectOption('glazing');
  await job.getByRole('button', { name: 'Add the part' }).click();
  await expect(job.getByText(`from ${donorName.split(' ')[0]}`)).toBeVisible();
  // What the plan counts on is one press each, at its likely cost.
  await job.getByRole('button', { name: 'Material…' }).click();
  const stripper = job
    .getByRole('group', { name: 'As planned' })
    .getByRole('button', { name: /^Paint stripper/ });
  await stripper.click();
  await expect(job.getByRole('button', { name: /^Remove Paint stripper/ })).toBeVisible();
  await expect(stripper).toHaveCount(0);
  await picture(demo, 'bench');
  expect(await breaches(demo)).toEqual([]);

  for (const [width, height] of [
    [768, 1024],
    [1024, 768],
  ] as const) {
    await demo.setViewportSize({ width, height });
    await demo.keyboard.press('g');
    await settled(demo);
    await picture(demo, `bench-tablet-${width}`);
    expect(await breaches(demo)).toEqual([]);
    await demo.keyboard.press('g');
  }
  await demo.setViewportSize({ width: 1440, height: 900 });
  await inScheme(demo, 'dark');
  await picture(demo, 'bench-dark');
  await inScheme(demo, 'light');

  const look = job.getByRole('button', { name: /^Look it over before/ });
  await look.click();
  await job.getByRole('checkbox', { name: /Glazing at the rear/ }).check();
  await expect(job.getByText(/\d to look at/)).toBeVisible();
  await settled(demo);
  // A tick takes no letters: the keys of the bench are heard while it has the focus.
  const large = demo.getByRole('switch', { name: 'Large type' });
  await demo.keyboard.press('g');
  await expect(large).toBeChecked();
  await demo.keyboard.press('g');
  await expect(large).not.toBeChecked();

  await job.getByRole('button', { name: /^Finish…/ }).click();
  await expect(demo.getByRole('heading', { level: 1, name: 'Finish the work' })).toBeVisible();
  // It asks of no part that the car never had, unless its owner wants more.
  const packaging = demo.getByRole('rowheader', { name: 'packaging' });
  await expect(demo.getByRole('rowheader', { name: 'glazing' })).toBeVisible();
  await expect(packaging).toHaveCount(0);
  await demo.getByRole('button', { name: 'More parts' }).click();
  await expect(packaging).toBeVisible();
  await demo.getByLabel('Overall grade').fill('C8.5');
  await demo.getByRole('textbox', { name: /^Colou?r$/ }).fill('Night violet');
  await demo.getByLabel('Closed with').selectOption('screw');
  await demo.getByLabel('Left as it was').fill('scratches in the glazing, too deep');
  const says = demo.getByRole('region', { name: 'What will be said about it' });
  await expect(says).toContainText('Restored: this is not the factory finish. It wears Night violet');
  await expect(says).toContainText(/another colou?r/);
  await expect(says).toContainText('visible post closure');
  await picture(demo, 'bench-finish');
  expect(await breaches(demo)).toEqual([]);
  await demo.getByRole('button', { name: /^Record the work/ }).click();
  await expect(demo.getByText('Restored: this is not the factory finish.').first()).toBeVisible();
  await expect(demo.getByText(number).first()).toBeVisible();
  await settled(demo);
  await picture(demo, 'bench-finished-car');
  await demo.keyboard.press('Control+z');
  await expect(demo.getByText('Restored: this is not the factory finish.')).toHaveCount(0);
  await expect(demo.getByText('on the bench').first()).toBeVisible();
});

test('a step of several cars is ticked for all of them at once, its time shared, and one undo takes it back', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/decide?recommendation=restore');
  await expect(demo.getByRole('grid', { name: 'Cars to decide' })).toBeFocused();
  await demo.keyboard.press('Space');
  await demo.keyboard.press('ArrowDown');
  await demo.keyboard.press('Space');
  await demo.getByRole('button', { name: 'Put 2 on the bench' }).click();
  const job = demo.getByRole('region', { name: /^Job on / });
  await expect(job).toBeVisible();
  const current = job.locator('[aria-current="step"]');
  const name = (await current.getByRole('button', { name: /^Done: / }).getAttribute('aria-label')) ?? 'none';
  const first = job.getByRole('button', { name, exact: true });
  const group = current.getByRole('group', { name: /^At the same time/ });
  // Beside the other car of the season, those that are on the bench already and wait for the same step.
  const label = group.locator('label').last();
  await expect(label).toBeVisible();
  const [other = 'none'] = ((await label.textContent()) ?? '').split(' ');
  const together = group.getByRole('checkbox').last();
  await together.check();
  await current.getByLabel('Minutes by hand').fill('30');
  await current.getByRole('button', { name: 'Add', exact: true }).click();
  await expect(current.getByText('15 min', { exact: true })).toBeVisible();
  await settled(demo);
  await picture(demo, 'bench-together');
  expect(await breaches(demo)).toEqual([]);
  await first.click();
  await expect(first).toHaveAttribute('aria-pressed', 'true');
  await settled(demo);
  await demo
    .getByRole('link', { name: new RegExp(`^${other}`) })
    .first()
    .click();
  await expect(demo.getByRole('region', { name: `Job on ${other}` })).toBeVisible();
  await expect(first).toHaveAttribute('aria-pressed', 'true');
  await expect(job.getByText('15 min counted')).toBeVisible();
  await demo.keyboard.press('Control+z');
  await expect(first).toHaveAttribute('aria-pressed', 'false');
});

test('what happened to a car is written down on its page, with its value before and after', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/cars/1');
  const work = demo.getByRole('region', { name: 'Work and events' });
  await work.getByRole('button', { name: 'Something happened to it…' }).click();
  await work.getByLabel('What happened').fill('dropped');
  await work.getByLabel('Grade afterwards').fill('C2');
  await work.getByLabel('Note', { exact: true }).fill('off the shelf');
  await work.evaluate(section => section.scrollIntoView({ block: 'start' }));
  expect(await breaches(demo)).toEqual([]);
  await work.getByRole('button', { name: 'Save the event' }).click();
  await expect(work.getByText(/dropped: off the shelf/)).toBeVisible();
  await expect(work.getByText(/C2 after/)).toBeVisible();
  await work.scrollIntoViewIfNeeded();
  await picture(demo, 'car-events');
  await demo.getByRole('button', { name: 'Undo', exact: true }).last().click();
  await expect(work.getByText(/dropped: off the shelf/)).toHaveCount(0);
  await work.getByRole('button', { name: 'Put on the bench' }).click();
  await expect(demo.getByRole('heading', { level: 1, name: 'Bench' })).toBeVisible();
});

test('a step that runs by itself calls when it is done, on every screen, also after a restart', async ({
  demo,
  picture,
}) => {
  await carsToDecide(demo, 'recommendation=restore');
  await demo.keyboard.press('Space');
  await demo.getByRole('button', { name: 'Put 1 on the bench' }).click();
  const coat = demo.getByRole('button', { name: /^Done: First coat/ });
  await coat.click();
  await expect(coat).toHaveAttribute('aria-pressed', 'true');
  const called = demo.getByRole('alert', { name: 'Done on the bench' });
  await expect(called).toHaveCount(0);
  await demo.addInitScript(() => {
    Reflect.set(globalThis, 'heardSounds', 0);
    Reflect.set(
      globalThis,
      'AudioContext',
      class {
        constructor() {
          Reflect.set(globalThis, 'heardSounds', Reflect.get(globalThis, 'heardSounds') + 1);
          throw new Error('Not heard in tests');
        }
      },
    );
  });
  // An hour later, after the page was closed in between.
  await demo.clock.install({ time: new Date(Date.now() + 3_600_000) });
  await demo.reload();
  await goTo(demo, '/sales');
  await expect(called).toContainText('First coat');
  expect(await demo.evaluate(() => Reflect.get(globalThis, 'heardSounds'))).toBe(1);
  // It covers nothing: the screen begins below it.
  const notice = (await called.boundingBox())!;
  const content = (await demo.locator('#content').boundingBox())!;
  expect(content.y).toBeGreaterThanOrEqual(notice.y + notice.height);
  await picture(demo, 'bench-call');
  expect(await breaches(demo)).toEqual([]);
  await goTo(demo, '/bench');
  const sound = demo.getByRole('switch', { name: 'Sound when a step is done' });
  await expect(sound).toBeChecked();
  await sound.uncheck();
  await demo.reload();
  await expect(called).toContainText('First coat');
  await expect(sound).not.toBeChecked();
  expect(await demo.evaluate(() => Reflect.get(globalThis, 'heardSounds'))).toBe(0);
  await called.getByRole('button', { name: 'Dismiss' }).click();
  await expect(called).toHaveCount(0);
});
