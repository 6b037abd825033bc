/**
 * Beginning a collection, going to a place of the screens, waiting until it stands, and looking whether
 * everyone can use it.
 */
import { type BrowserContext, expect, type Page } from '@playwright/test';
import { allButColours, breachesNow } from '../helpers/breaches.ts';

/** On the first start: makes an empty collection in a folder. */
export const startEmpty = async (page: Page, folder: string): Promise<void> => {
  await page.getByRole('button', { name: 'Start empty' }).click();
  await page.getByLabel('Folder').fill(folder);
  await page.getByRole('button', { name: 'Create the collection' }).click();
};

/** Makes an empty collection and chooses a file to be imported into it. */
export const startImport = async (page: Page, folder: string, file: string): Promise<void> => {
  await startEmpty(page, folder);
  await expect(page.getByRole('list', { name: 'First steps' })).toBeVisible();
  await goTo(page, '/lots/import');
  await page.getByLabel('Spreadsheet to import').setInputFiles(file);
};

/** Makes a collection and a lot in it, so that closing has something to back up. */
export const startChanged = async (page: Page, collection: string): Promise<void> => {
  await startEmpty(page, collection);
  await expect(page.getByRole('list', { name: 'First steps' })).toBeVisible();
  await goTo(page, '/lots/new');
  await page.getByLabel('Name of the lot').fill('Barn tin');
  await page.getByRole('button', { name: 'Enter its cars' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Barn tin' })).toBeVisible();
};

/** What of the page is unfinished: parts that say they are busy, pictures under way, movements and fades. */
const unfinished = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const parts = [...document.querySelectorAll('[aria-busy="true"]')].map(part => `busy: ${part.outerHTML}`);
    const pictures = [...document.images]
      .filter(image => !image.complete && image.loading !== 'lazy')
      .map(image => `picture: ${image.src}`);
    const moving = document
      .getAnimations()
      .filter(({ playState, effect }) => playState === 'running' && effect?.getTiming().iterations === 1)
      .map(({ effect }) => `moving: ${(effect as KeyframeEffect | null)?.target?.outerHTML}`);
    return [...parts, ...pictures, ...moving].map(text => text.slice(0, 200));
  });

/** How soon to look again, in milliseconds: by itself Playwright soon lets a whole second pass. */
const intervals = [20, 50];

/** How many movements and fades are under way that end by themselves. */
const underWay = (page: Page): Promise<number> =>
  page.evaluate(
    () =>
      document
        .getAnimations()
        .filter(({ playState, effect }) => playState === 'running' && effect?.getTiming().iterations === 1)
        .length,
  );

/**
 * Waits until what moves into its place has arrived. Playwright's own way, which is to end each movement by
 * force, now and then takes the page of an older Chromium down with it.
 */
export const still = (page: Page): Promise<void> => expect.poll(() => underWay(page), { intervals }).toBe(0);

/** Waits until no part of the page is loading or moving; what never ends is named. */
export const settled = (page: Page): Promise<void> =>
  expect.poll(() => unfinished(page), { intervals }).toEqual([]);

/**
 * Goes to a place, and has its screen drawn, finished or not: until then what was shown before stands there.
 */
export const goTo = (page: Page, place: string): Promise<void> =>
  page.evaluate(
    hash =>
      new Promise<void>(resolve => {
        if (location.hash === `#${hash}`) return resolve();
        // This listener is called after those of the screens, which draw before the next task.
        window.addEventListener('hashchange', () => setTimeout(resolve, 0), { once: true });
        location.hash = hash;
      }),
    place,
  );

/** Shows the page in a colour scheme, its colours arrived. */
export const inScheme = async (page: Page, colorScheme: 'light' | 'dark'): Promise<void> => {
  await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
  await expect(page.locator('html')).toHaveAttribute('data-mantine-color-scheme', colorScheme);
  await settled(page);
};

/**
 * Breaches of WCAG 2.2 AA and below, in dark and in light. What a rule finds follows from what it reads: in
 * light the rules that ask for no colour run again only where anything that they can read is not as it was in
 * dark. The page is looked at from its top: in the middle of a long one, what is half beneath the bar of its sections
 * would count as too small to be pressed.
 */
export const breaches = async (page: Page): Promise<string[]> => {
  await settled(page);
  await page.evaluate(() => document.querySelector('main')?.scrollTo({ top: 0, behavior: 'instant' }));
  await inScheme(page, 'dark');
  const seen = await allButColours(page);
  const dark = await breachesNow(page);
  await inScheme(page, 'light');
  const light = await breachesNow(page, (await allButColours(page)) === seen ? 'of colour' : 'all');
  return [...dark.map(breach => `dark: ${breach}`), ...light.map(breach => `light: ${breach}`)];
};

/**
 * Waits until an open page asks for nothing past the routes that it was given: Chromium tells it of the first
 * one later than it says, so that what a key asks for at once would go past it.
 */
const routed = async (page: Page): Promise<void> => {
  await page.route('**/?routed', route => route.fulfill({ status: 204 }));
  const ask = () => page.evaluate(() => fetch('/?routed').then(({ status }) => status));
  await expect.poll(ask, { intervals }).toBe(204);
};

/** Holds back what is asked for under an address until it is opened; `asked` says when it was asked for. */
export const gate = async (of: Page | BrowserContext, address: RegExp) => {
  const opened = Promise.withResolvers<void>();
  const asked = Promise.withResolvers<void>();
  await of.route(address, async route => {
    asked.resolve();
    await opened.promise;
    await route.continue();
  });
  if ('keyboard' in of) await routed(of);
  return { asked: asked.promise, open: () => opened.resolve() };
};
