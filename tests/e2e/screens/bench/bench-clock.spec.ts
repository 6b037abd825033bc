import { hostClock } from '../../../helpers/hooks/host-clock.ts';
import { expect, test } from '../../fixtures.ts';
import { goTo, settled } from '../../looking.ts';

// The window's service is started by Electron, which takes no hook into its processes.
test.skip(
  ({ host }) => host === 'window',
  'SKIPPED in the window: the clock of its service cannot be set from outside.',
);

test('clocks on the bench count what can be counted: sessions, a restart, another zone, sleep, a clock set back', async ({
  start,
  demoCollection: _copied,
  home,
}) => {
  const clock = hostClock(home, new Date('2026-11-02T09:00:00Z'));
  let started = await start({ env: clock.env });
  let { page } = started;
  await goTo(page, '/cars/1');
  await page.getByRole('button', { name: 'Put on the bench' }).click();
  const current = () => page.locator('[aria-current="step"]');
  const press = async (running: boolean) => {
    await page.keyboard.press('t');
    await expect(current().getByRole('timer')).toHaveCount(running ? 1 : 0);
    await settled(page);
  };
  const session = async (meanwhile: () => void | Promise<void>) => {
    await press(true);
    await meanwhile();
    await press(false);
  };
  await expect(current()).toBeVisible();
  await session(() => clock.jump(30));
  await expect(current().getByText('30 min', { exact: true })).toBeVisible();

  // The second half hour goes over a restart and into another time zone, where it is the day after.
  await press(true);
  clock.jump(20);
  await started.close();
  clock.travel('Pacific/Kiritimati');
  started = await start({ env: clock.env });
  page = started.page;
  await goTo(page, '/bench');
  await expect(current().getByRole('timer')).toBeVisible();
  clock.jump(10);
  await press(false);
  await expect(current().getByText('1 h', { exact: true })).toBeVisible();

  // Left running over a night, and over a clock that is set back: neither is work that anybody can tell.
  await session(() => clock.jump(9 * 60));
  await expect(current().getByText('1 session not counted')).toBeVisible();
  await session(() => clock.jump(-3 * 60));
  await expect(current().getByText('2 sessions not counted')).toBeVisible();
  await expect(current().getByText('1 h', { exact: true })).toBeVisible();
  await expect(page.getByText('1 h counted')).toBeVisible();
});
