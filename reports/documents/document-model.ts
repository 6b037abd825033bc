import { printableLine, printableText } from '../printable.ts';
import type { DocumentBlock, PaperDocument } from './document.ts';

const printed = (block: DocumentBlock, fileOf: (path: string) => string | null): unknown => {
  switch (block.kind) {
    case 'heading':
      return { ...block, text: printableLine(block.text) };
    case 'paragraph':
      return { ...block, tone: block.tone ?? 'plain', text: printableText(block.text) };
    case 'facts':
      return {
        ...block,
        facts: block.facts.map(({ label, value }) => ({
          label: printableLine(label),
          value: printableText(value),
        })),
      };
    case 'table':
      return {
        ...block,
        columns: block.columns.map(({ title, align = 'left', width = 'auto' }) => ({
          title: printableLine(title),
          align,
          width,
        })),
        rows: block.rows.map(row => row.map(printableText)),
        total: block.total?.map(printableText) ?? null,
      };
    case 'photos':
      return {
        ...block,
        photos: block.photos.map(({ path, caption, alt }) => ({
          file: fileOf(path),
          caption: printableLine(caption),
          alt: printableLine(alt),
        })),
      };
    case 'checklist':
      return { ...block, items: block.items.map(printableText) };
    case 'pageBreak':
      return block;
  }
};

/** What a document is of a paper. */
export interface DocumentPlace {
  /** Begins it, with its title. */
  opens: boolean;
  /** Its first page, counted from 1 in the whole. */
  firstPage: number;
  /** Is the whole of it, and so knows how many pages there are. */
  isWhole: boolean;
}

/**
 * What the template is given of a document: every text printable, every photograph by its name in
 * the template's folder.
 */
export const documentModel = (
  document: PaperDocument,
  fileOf: (path: string) => string | null,
  { opens, firstPage, isWhole }: DocumentPlace,
): unknown => ({
  opens,
  firstPage,
  isWhole,
  title: printableLine(document.title),
  subtitle: printableLine(document.subtitle),
  author: printableLine(document.author),
  footer: printableLine(document.footer),
  paper: document.paper,
  blocks: document.blocks.map(block => printed(block, fileOf)),
});
