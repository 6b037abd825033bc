import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import pixelmatch from 'pixelmatch';
import sharp from 'sharp';
import { expect } from 'vitest';

const accepted = fileURLToPath(new URL('./accepted/', import.meta.url));
/** Where a page that was not accepted is put to be looked at. */
const output = fileURLToPath(new URL('../../output/pages/', import.meta.url));

/** A page of a PDF as a small picture. */
export const rendered = async (pdf: Uint8Array, page: number) => {
  const folder = mkdtempSync(join(tmpdir(), 'playworn-pages-'));
  writeFileSync(join(folder, 'paper.pdf'), pdf);
  const range = ['-f', String(page), '-l', String(page)];
  execFileSync('pdftoppm', [
    ...['-r', '60', '-png', '-singlefile'],
    ...range,
    join(folder, 'paper.pdf'),
    join(folder, 'page'),
  ]);
  const picture = await sharp(join(folder, 'page.png')).png({ palette: true, colours: 32 }).toBuffer();
  rmSync(folder, { recursive: true });
  return picture;
};

const pixelsOf = async (picture: Buffer) => {
  const { data, info } = await sharp(picture)
    .removeAlpha()
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { data, width: info.width, height: info.height };
};

/** Pixels that may differ: programs that draw a page smooth its letters a little otherwise; a short line that is missing is more than that. */
const mostOf = ({ width, height }: { width: number; height: number }) => width * height * 0.0003;

/**
 * Holds a page against the one that was accepted. `ACCEPT_PAGES=1 npx vitest run --config tests/vitest.config.ts tests/reports/accepted`
 * accepts what is made now; look at the pictures before they are committed.
 */
export const expectAccepted = async (name: string, picture: Buffer) => {
  const file = join(accepted, `${name}.png`);
  if (process.env.ACCEPT_PAGES === '1') {
    mkdirSync(accepted, { recursive: true });
    writeFileSync(file, picture);
  }
  expect(existsSync(file), `${name} has been accepted`).toBe(true);
  const [was, is] = [await pixelsOf(readFileSync(file)), await pixelsOf(picture)];
  const differs =
    was.width === is.width && was.height === is.height
      ? pixelmatch(was.data, is.data, undefined, is.width, is.height, { threshold: 0.25 })
      : Number.POSITIVE_INFINITY;
  const most = mostOf(is);
  if (differs > most) {
    mkdirSync(output, { recursive: true });
    writeFileSync(join(output, `${name}.png`), picture);
  }
  expect(differs, `${name} looks as it was accepted; what it is now lies in output/pages`).toBeLessThan(most);
};

/** How many pixels of a page differ from those of the one that was accepted, and how many may. */
export const differenceOf = async (name: string, picture: Buffer) => {
  const [was, is] = [await pixelsOf(readFileSync(join(accepted, `${name}.png`))), await pixelsOf(picture)];
  return {
    differs: pixelmatch(was.data, is.data, undefined, is.width, is.height, { threshold: 0.25 }),
    most: mostOf(is),
  };
};
