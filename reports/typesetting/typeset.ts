import { NodeCompiler, type NodeTypstDocument } from '@myriaddreamin/typst-ts-node-compiler';
import { unprintable } from '../printable.ts';
import type { PdfStandard } from '../types.ts';
import { previewPages } from './preview-pages.ts';

/** What Typst is given: sources and files by their name in its own, closed folder. */
export interface TypesetInput {
  templates: Map<string, string>;
  main: string;
  fonts: Buffer[];
  /** Bytes of `report.json`: data, never source. */
  data: string;
  photos: Map<string, Buffer>;
  standard: PdfStandard;
  /** Seconds since 1970; the only time in the file. */
  createdAt: number;
  /** Wanted to be looked at, page by page, before it is saved. */
  preview?: boolean | undefined;
}

export interface Typeset {
  pdf: Uint8Array;
  pages: number;
  /** The first pages as SVG pictures where they were wanted; else none. */
  preview: string[];
  standard: PdfStandard;
  warnings: string[];
}

// Typst reads nothing from disk: its folder does not exist, every file in it is given.
const folder = process.platform === 'win32' ? 'C:\\playworn-report' : '/playworn-report';
const inFolder = (name: string): string => `${folder}${process.platform === 'win32' ? '\\' : '/'}${name}`;

interface Diagnostic {
  message?: string;
}
const messagesOf = (diagnostics: unknown[]): string =>
  diagnostics.map(diagnostic => (diagnostic as Diagnostic).message ?? String(diagnostic)).join('; ');

const undisplayable = /the text `\\?"(.+?)\\?"` could not be displayed/gu;

/** Characters of the clusters that the archival standards refuse because no font at hand has them. */
const missingCharacters = (message: string): Set<string> => {
  const characters = new Set<string>();
  for (const [, cluster] of message.matchAll(undisplayable))
    for (const character of cluster!.replace(/\\u\{([0-9a-f]+)\}/gi, (_, hex) =>
      String.fromCodePoint(Number.parseInt(hex, 16)),
    ))
      if (character > '\u007f' && character !== unprintable) characters.add(character);
  return characters;
};

const codePoints = (characters: Iterable<string>): string =>
  [...characters]
    .map(character => `U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`)
    .join(', ');

/** The template itself cannot be set: another standard would not help. */
class NotSet extends Error {}

/**
 * Typst draws all pages as one text, and the drawing of thousands of photographs is longer than a text can
 * be: long documents are not drawn, and what cannot be drawn is made all the same.
 */
export const mostPreviewed = 400;

const pagesToLookAt = (compiler: NodeCompiler, document: NodeTypstDocument, pages: number): string[] => {
  if (pages > mostPreviewed) return [];
  try {
    return previewPages(compiler.plainSvg(document), pages);
  } catch {
    return [];
  }
};

const compileOnce = (compiler: NodeCompiler, input: TypesetInput, data: string, standard: PdfStandard) => {
  compiler.mapShadow(inFolder('report.json'), Buffer.from(data));
  const compiled = compiler.compile({ mainFilePath: inFolder(input.main), resetRead: true });
  if (!compiled.result) {
    const failure = compiled.takeDiagnostics();
    throw new NotSet(
      `The report could not be set: ${failure ? messagesOf(compiler.fetchDiagnostics(failure)) : 'unknown reason'}`,
    );
  }
  const pages = compiled.result.numOfPages;
  const pdf = compiler.pdf(compiled.result, { pdfStandard: standard, creationTimestamp: input.createdAt });
  const preview = input.preview ? pagesToLookAt(compiler, compiled.result, pages) : [];
  return { pages, pdf, preview };
};

const mostAttempts = 4;

/**
 * Sets the report as a PDF. The same input gives the same bytes. Characters that no font has are replaced
 * by □ and told in the warnings; where the wished standard cannot be met even so, the file is a plain
 * tagged PDF 1.7 and says so. Blocks its thread until done. Throws Error with Typst's own words where the
 * template cannot be set.
 */
export const typeset = (input: TypesetInput): Typeset => {
  const compiler = NodeCompiler.create({ workspace: folder, fontArgs: [{ fontBlobs: input.fonts }] });
  for (const [name, source] of input.templates) compiler.addSource(inFolder(name), source);
  for (const [name, bytes] of input.photos) compiler.mapShadow(inFolder(name), bytes);
  const warnings: string[] = [];
  let data = input.data;
  let reason = '';
  try {
    for (let attempt = 1; attempt <= mostAttempts && input.standard !== '1.7'; attempt += 1)
      try {
        return { ...compileOnce(compiler, input, data, input.standard), standard: input.standard, warnings };
      } catch (error) {
        reason = (error as Error).message;
        const missing = missingCharacters(reason);
        if (missing.size === 0 && error instanceof NotSet) throw error;
        if (missing.size === 0) break;
        warnings.push(`No font on this computer has ${codePoints(missing)}; printed as ${unprintable}`);
        for (const character of missing) data = data.replaceAll(character, unprintable);
      }
    if (reason) warnings.push(`Made as a plain tagged PDF, not ${input.standard}: ${reason.slice(0, 300)}`);
    return { ...compileOnce(compiler, input, data, '1.7'), standard: '1.7', warnings };
  } finally {
    compiler.evictCache(0);
  }
};
