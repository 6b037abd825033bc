import { expect, test } from '../fixtures.ts';
import { root } from '../hosts.ts';

test('the page and a utility process speak over the port that the main process handed over', async ({
  start,
  expectedComplaints,
}) => {
  // The page's own client cannot make sense of the stand-in's answers.
  expectedComplaints.push(/TypeError/);
  const { page, app } = await start({
    env: {
      PLAYWORN_SERVICE_NODE: '',
      PLAYWORN_SERVICE_FILE: `${root}/tests/e2e/window/ping-service.cjs`,
    },
  });
  const answer = await page.evaluate(
    () =>
      new Promise<{ pong: unknown; pid: number; type: string }>(resolve => {
        addEventListener('message', event => {
          const [port] = event.ports;
          if (event.data !== 'playworn:port' || !port) return;
          // The page's own client speaks over its ports too, and is answered.
          port.onmessage = ({ data }) => data.pong?.ping && resolve(data);
          port.postMessage({ ping: new Uint8Array([1, 2, 3]) });
        });
        postMessage('playworn:ready', location.origin);
      }),
  );
  expect(Object.values((answer.pong as { ping: Record<string, number> }).ping)).toEqual([1, 2, 3]);
  expect(answer.type).toBe('utility');
  const processes = await app!.evaluate(({ app: electronApp }) =>
    electronApp.getAppMetrics().map(({ pid, type, name }) => ({ pid, type, name })),
  );
  expect(processes).toContainEqual(
    expect.objectContaining({ pid: answer.pid, type: 'Utility', name: 'Playworn data service' }),
  );
});

test('the data service itself answers the screens from a utility process', async ({ start }) => {
  // Before a collection is opened nothing needs the database, which an older Electron cannot load.
  const { page } = await start({ env: { PLAYWORN_SERVICE_NODE: '' } });
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
});
