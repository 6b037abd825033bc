import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { homedir, tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

/** A page that only the owner can read, and that leads a browser to an address. */
export interface EntryPage {
  /** `file:` address of the page; it may be seen by anybody. */
  url: string;
  remove(): void;
}

/** Browsers that come as snaps see no temporary folder, but the visible part of the home (from memory). */
const placeForPages = (): string =>
  process.platform === 'linux' && existsSync('/snap/bin') ? homedir() : tmpdir();

/**
 * Writes the page into a folder of its own. What a program is started with can be read by every user of the
 * machine, so the browser is given the page's place, and the address with its code stands inside.
 */
export const writeEntryPage = (address: string, place = placeForPages()): EntryPage => {
  const folder = mkdtempSync(join(place, 'playworn-'));
  const file = join(folder, 'open.html');
  const remove = () => rmSync(folder, { recursive: true, force: true });
  try {
    writeFileSync(
      file,
      `<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta name="referrer" content="no-referrer" />
    <meta http-equiv="refresh" content="0; url=${address}" />
    <title>Playworn</title>
  </head>
  <body><p><a href="${address}">Open Playworn</a></p></body>
</html>
`,
      { mode: 0o600, flag: 'wx' },
    );
  } catch (error) {
    remove();
    throw error;
  }
  return { url: pathToFileURL(file).href, remove };
};
