import { expect, test } from '../../fixtures.ts';
import { gate, goTo, settled } from '../../looking.ts';

test('a press counts though what comes late moves the page beneath it', async ({ demo }) => {
  const { asked, open } = await gate(demo, /\/rpc\/decisions\/valueOfAnHour/);
  await goTo(demo, '/decide');
  const grade = demo
    .getByRole('grid', { name: 'Cars to decide' })
    .getByRole('columnheader', { name: 'Grade' });
  const top = async () => (await grade.boundingBox())?.y ?? 0;
  await asked;
  await grade.waitFor();
  await settled(demo);
  const before = await top();
  await grade.hover();
  await demo.mouse.down();
  open();
  await expect.poll(top).toBeGreaterThan(before + 40);
  await demo.mouse.up();
  await expect(grade).toHaveAttribute('aria-sort', 'descending');
  // Once only: a second click would sort the other way.
  await settled(demo);
  await expect(grade).toHaveAttribute('aria-sort', 'descending');
});
