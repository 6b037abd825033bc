import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ElectronApplication } from '@playwright/test';
import { leftUndone } from '../../../electron/service/messages.ts';
import { expect, test } from '../fixtures.ts';
import { electronProgram, root, serve, windowSwitches } from '../hosts.ts';
import { startChanged } from '../looking.ts';

const bounds = (app: ElectronApplication | undefined) =>
  app!.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]!.getBounds());

test('the window opens where it was', async ({ start }) => {
  const first = await start();
  const place = { x: 120, y: 90, width: 1230, height: 760 };
  await first.app!.evaluate(
    ({ BrowserWindow }, to) => BrowserWindow.getAllWindows()[0]!.setBounds(to),
    place,
  );
  await expect.poll(() => bounds(first.app)).toEqual(place);
  await first.app!.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]!.close());
  await first.close();
  const second = await start();
  expect(await bounds(second.app)).toEqual(place);
});

test('a second start on the same collection shows the window there is, and ends', async ({
  start,
  home,
  collection,
}) => {
  const { app } = await start();
  await app!.evaluate(({ app: electronApp }) => {
    electronApp.on('second-instance', () => Reflect.set(globalThis, 'askedAgain', true));
  });
  const second = spawn(
    electronProgram(),
    [...windowSwitches(), `--user-data-dir=${join(home, 'profile')}`, root, `--collection=${collection}`],
    { stdio: 'ignore' },
  );
  const code = await new Promise(resolve => second.once('exit', resolve));
  expect(code).toBe(0);
  await expect.poll(() => app!.evaluate(() => Reflect.get(globalThis, 'askedAgain'))).toBe(true);
  expect(await app!.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows().length)).toBe(1);
});

test('a backup that fails on closing changes how the window ends', async ({ start, collection }) => {
  const { app, page } = await start();
  await startChanged(page, collection);
  rmSync(join(collection, 'backups'), { recursive: true, force: true });
  writeFileSync(join(collection, 'backups'), 'not a folder');
  const ended = once(app!.process(), 'exit');
  // The answer is lost with the process that gives it.
  await app!.evaluate(({ app: electronApp }) => electronApp.quit()).catch(() => undefined);
  expect(await ended).toEqual([leftUndone, null]);
  expect(existsSync(join(collection, 'collection.open'))).toBe(false);
});

test('the menu has the roles of the system and the commands of the screens', async ({ start }) => {
  const { app } = await start();
  const items = await app!.evaluate(({ Menu }) =>
    Menu.getApplicationMenu()!.items.flatMap(menu =>
      menu.submenu!.items.map(item => `${menu.label}: ${item.id ?? ''} ${item.role ?? item.label}`),
    ),
  );
  const all = items.join('\n').toLowerCase();
  for (const id of [
    'new-collection',
    'open-collection',
    'import',
    'export-report',
    'back-up',
    'undo',
    'redo',
    'search',
  ])
    expect(all).toContain(`: ${id} `);
  for (const role of ['cut', 'copy', 'paste', 'selectall', 'zoomin', 'zoomout', 'togglefullscreen', 'quit'])
    expect(all).toContain(role);
});

const choose = (app: ElectronApplication | undefined, id: string) =>
  app!.evaluate(({ Menu }, item) => Menu.getApplicationMenu()!.getMenuItemById(item)!.click(), id);

test('a command of the menu reaches the screens', async ({ start, demoCollection: _copied }) => {
  const { page, app } = await start();
  await expect(page.getByRole('navigation').first()).toBeVisible();
  await choose(app, 'export-report');
  await expect.poll(() => page.url()).toMatch(/#\/reports/);
});

test('a new collection is made in the folder that the dialog gives', async ({
  start,
  home,
  demoCollection: _copied,
}) => {
  const { page, app } = await start();
  await expect(page.getByRole('navigation').first()).toBeVisible();
  const folder = join(home, 'Another');
  await app!.evaluate(({ dialog }, chosen) => {
    dialog.showOpenDialog = async () => ({ canceled: false, filePaths: [chosen] });
  }, folder);
  await choose(app, 'new-collection');
  await expect.poll(() => existsSync(join(folder, 'collection.sqlite'))).toBe(true);
});

test('closing the window closes the collection, so that others can open it', async ({
  start,
  demoCollection,
}) => {
  const { page, app } = await start();
  await expect(page.getByRole('navigation').first()).toBeVisible();
  const openMark = join(demoCollection, 'collection.open');
  expect(existsSync(openMark)).toBe(true);
  const gone = new Promise(resolve => app!.process().once('exit', resolve));
  await app!.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]!.close());
  await gone;
  expect(existsSync(openMark)).toBe(false);
});

test('a collection that another program holds is not opened, and the screens say who holds it', async ({
  start,
  home,
  demoCollection,
}) => {
  const { child: holder } = await serve({ home, collection: demoCollection });
  const gone = new Promise(resolve => holder.once('exit', resolve));
  try {
    const { page } = await start();
    await expect(page.getByText(/browser mode/).first()).toBeVisible();
  } finally {
    holder.kill('SIGINT');
    await gone;
  }
});

test('a data service that dies can be started again', async ({ start, demoCollection: _copied }) => {
  const { page, app } = await start();
  await expect(page.getByRole('navigation').first()).toBeVisible();
  await app!.evaluate(({ dialog }) => {
    const answerFirst = async (options: Electron.MessageBoxOptions) => {
      Reflect.set(globalThis, 'asked', options.message);
      return { response: 0, checkboxChecked: false };
    };
    dialog.showMessageBox = answerFirst as typeof dialog.showMessageBox;
  });
  const found = execFileSync('pgrep', ['-P', String(app!.process().pid), '-f', 'service.cjs'], {
    encoding: 'utf8',
  });
  process.kill(Number(found.trim().split('\n')[0]), 'SIGKILL');
  const asked = () => app!.evaluate(() => Reflect.get(globalThis, 'asked'));
  await expect.poll(asked).toBe('The data service stopped');
  // What was left by the one that died is checked, and its owner is told.
  await expect(page.getByText(/ended without closing/)).toBeVisible({ timeout: 30_000 });
  await expect(page.getByRole('navigation').first()).toBeVisible();
});
