import { createRequire } from 'node:module';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';

/** The source of axe that the builder brings with it. */
const { source }: { source: string } = createRequire(import.meta.resolve('@axe-core/playwright'))('axe-core');

const levels = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/**
 * The rules of those levels that ask for a colour. All others read elements, their names, boxes and
 * visibility.
 */
const rulesOfColour = ['color-contrast', 'link-in-text-block'];

/**
 * Has axe read each colour's text once. It takes the same few texts apart for every element that it looks at,
 * which was a fifth of its time; what it makes of a text follows from the text alone.
 */
const readColoursOnce = (page: Page): Promise<void> =>
  page.evaluate(() => {
    type Read = Record<'r' | 'g' | 'b' | 'alpha', number>;
    const { Color } = (window as unknown as { axe: { commons: { color: { Color: { prototype: object } } } } })
      .axe.commons.color;
    const colours = Color.prototype as { parseString(this: Read, text: string): Read };
    const { parseString } = colours;
    const known = new Map<string, Read>();
    colours.parseString = function (text) {
      const read = known.get(text);
      if (read) return Object.assign(this, read);
      parseString.call(this, text);
      const { r, g, b, alpha } = this;
      known.set(text, { r, g, b, alpha });
      return this;
    };
  });

/**
 * Breaches of WCAG 2.2 AA and below on the page as it stands, each with all the elements it stands on, within
 * the dialog where one is open. All rules run on all elements, or those of colour alone; but only breaches
 * are described: describing the two megabytes of what is sound took most of the time.
 */
export const breachesNow = async (page: Page, rules: 'all' | 'of colour' = 'all'): Promise<string[]> => {
  // Nothing beneath an open dialog can be used, and half of it may lie behind the dialog's edge.
  const dialog = '[role="dialog"][aria-modal="true"]';
  // The builder reads its 1.3 MB into the page twice for each look; once for each document is enough.
  if (!(await page.evaluate(() => 'axe' in window))) {
    await page.evaluate(source);
    await readColoursOnce(page);
  }
  const builder = new AxeBuilder({ page, axeSource: 'undefined' });
  if ((await page.locator(dialog).count()) > 0) builder.include(dialog);
  const { violations } = await builder
    // In the page itself, not with a second one beside it: there are no frames.
    .setLegacyMode(true)
    .options({
      resultTypes: ['violations'],
      runOnly: rules === 'all' ? { type: 'tag', values: levels } : { type: 'rule', values: rulesOfColour },
    })
    .analyze();
  return violations.map(
    ({ id, help, nodes }) => `${id}: ${help}\n${nodes.map(node => `  ${node.html}`).join('\n')}`,
  );
};

/**
 * Everything of the page that a rule can read beside colours: its elements with their attributes, texts and
 * what is typed, and of each its box, whether it shows, how it scrolls, and what style sheets write into it.
 */
export const allButColours = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const styles = (element: Element) => {
      const { left, top, width, height } = element.getBoundingClientRect();
      const css = getComputedStyle(element);
      const written = ['::before', '::after'].map(part => getComputedStyle(element, part).content);
      return [
        ...[left, top, width, height],
        ...[css.display, css.visibility, css.opacity, css.position, css.zIndex, css.overflow, css.clip],
        ...[
          css.clipPath,
          css.pointerEvents,
          css.transform,
          css.fontSize,
          css.fontWeight,
          css.textDecorationLine,
        ],
        ...written,
        (element as HTMLInputElement).value,
      ].join(' ');
    };
    return `${document.body.outerHTML}\n${[...document.querySelectorAll('*')].map(styles).join('\n')}`;
  });
