/** Waiting until a page stands is what nearly every test of the screens rests on. */
import type { Page } from '@playwright/test';
import { expect, test } from '../fixtures.ts';
import { settled, still } from '../looking.ts';

/** A page with something unfinished on it; it counts how often somebody has looked at what moves. */
const unfinished = async (page: Page, body: string) => {
  await page.setContent(body, { waitUntil: 'commit' });
  await page.evaluate(() => {
    const look = document.getAnimations.bind(document);
    let looks = 0;
    document.getAnimations = () => {
      looks += 1;
      document.body.dataset.looks = String(looks);
      return look();
    };
  });
};

/** Whether waiting goes on when it has looked twice; then what was unfinished is finished, and it must end. */
const waitsUntil = async (page: Page, waiting: Promise<void>, finish: () => void) => {
  const ended = waiting.then(() => 'ended');
  const looks = page.waitForFunction(() => Number(document.body.dataset.looks) > 1).then(() => 'waits');
  const first = await Promise.race([ended, looks]);
  await page.evaluate(finish);
  await ended;
  return first;
};

const parts = {
  'a part that says it is busy': [
    '<main aria-busy="true">…</main>',
    () => document.querySelector('main')!.removeAttribute('aria-busy'),
  ],
  'a second one': [
    '<p aria-busy="false">done</p><p id="late" aria-busy="true">…</p>',
    () => document.querySelector('#late')!.remove(),
  ],
  'a picture under way': [
    '<img src="https://held.example/picture.png" alt="">',
    () => document.querySelector('img')!.remove(),
  ],
  'something that moves into its place': [
    '<style>@keyframes in { from { opacity: 0 } } p { animation: in 1000s }</style><p>here</p>',
    () => document.getAnimations()[0]!.finish(),
  ],
} satisfies Record<string, [string, () => void]>;

for (const [what, [body, finish]] of Object.entries(parts))
  test(`a page is not settled before ${what} is finished`, async ({ page }) => {
    await page.route('https://held.example/**', () => {});
    await unfinished(page, body);
    expect(await waitsUntil(page, settled(page), finish)).toBe('waits');
  });

test('a page is settled though something turns for ever, or a picture waits to be scrolled to', async ({
  page,
}) => {
  await page.route('https://held.example/**', () => {});
  await unfinished(
    page,
    `<style>@keyframes turn { to { rotate: 1turn } } p { animation: turn 1s infinite } div { height: 99999px }</style>
     <p aria-busy="false">done</p><div></div><img loading="lazy" src="https://held.example/picture.png" alt="">`,
  );
  await settled(page);
  await still(page);
});

test('movements alone are waited for where the rest may go on', async ({ page }) => {
  const [body, finish] = parts['something that moves into its place'];
  await unfinished(page, `<main aria-busy="true">…</main>${body}`);
  expect(await waitsUntil(page, still(page), finish)).toBe('waits');
});
