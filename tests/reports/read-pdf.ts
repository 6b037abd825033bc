import { execFile, execFileSync } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';

const run = promisify(execFile);

/** Whether the tools that read a PDF back (poppler-utils) are here. */
export const canReadPdf = ((): boolean => {
  try {
    execFileSync('pdftotext', ['-v'], { stdio: 'ignore' });
    return true;
  } catch {
    console.warn('SKIPPED: pdftotext (poppler-utils) is not installed, so no PDF can be read back.');
    return false;
  }
})();

const withFile = async <Result>(
  pdf: Uint8Array,
  read: (file: string) => Promise<Result>,
): Promise<Result> => {
  const folder = await mkdtemp(join(tmpdir(), 'playworn-pdf-'));
  try {
    await writeFile(join(folder, 'report.pdf'), pdf);
    return await read(join(folder, 'report.pdf'));
  } finally {
    await rm(folder, { recursive: true });
  }
};

const output = async (tool: string, args: string[]): Promise<string> =>
  (await run(tool, args, { maxBuffer: 256 * 1024 * 1024 })).stdout;

/**
 * The text of a PDF, page breaks as form feeds, without the break opportunities that print puts into long
 * runs; as it stands on the page, or column by column as it was written.
 */
export const pdfText = (pdf: Uint8Array, order: 'layout' | 'raw' = 'layout'): Promise<string> =>
  withFile(pdf, async file => (await output('pdftotext', [`-${order}`, file, '-'])).replaceAll('\u200b', ''));

/** What the file says of itself: title, author, whether tagged, pages. */
export const pdfInfo = (pdf: Uint8Array): Promise<Map<string, string>> =>
  withFile(pdf, async file => {
    const lines = (await output('pdfinfo', [file])).split('\n');
    return new Map(
      lines.map(line => [line.slice(0, line.indexOf(':')), line.slice(line.indexOf(':') + 1).trim()]),
    );
  });

/** The outline of tags. */
export const pdfTags = (pdf: Uint8Array): Promise<string> =>
  withFile(pdf, file => output('pdfinfo', ['-struct', file]));

/** The words of a text without its white space, for phrases that may be broken over lines. */
export const squeezed = (text: string): string => text.replace(/\s+/g, '');
