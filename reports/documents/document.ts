/** A document as the template sets it: plain texts in blocks, one after the other. No text is markup. */

/** A photograph in a document, by the path of its file. */
export interface DocumentPhoto {
  path: string;
  caption: string;
  /** What it shows, for a reader who does not see it. */
  alt: string;
}

export type DocumentBlock =
  | { kind: 'heading'; level: 1 | 2 | 3; text: string }
  /** `quiet` is small and grey; `caution` and `statement` stand in a frame. */
  | { kind: 'paragraph'; text: string; tone?: 'quiet' | 'caution' | 'statement' }
  | { kind: 'facts'; facts: { label: string; value: string }[] }
  | {
      kind: 'table';
      columns: { title: string; align?: 'left' | 'right'; width?: 'auto' | 'wide' }[];
      rows: string[][];
      /** A last row that stands out. */
      total?: string[];
    }
  | { kind: 'photos'; columns: 1 | 2 | 3; photos: DocumentPhoto[] }
  /** A box to tick before each. */
  | { kind: 'checklist'; items: string[] }
  | { kind: 'pageBreak' };

export interface PaperDocument {
  title: string;
  /** Under the title, in one line. */
  subtitle: string;
  author: string;
  /** At the foot of each page. */
  footer: string;
  /** Pocket is A6, 105 × 148 mm. */
  paper: 'a4' | 'us-letter' | 'pocket';
  blocks: DocumentBlock[];
}

/** The photographs of a document, in their order, each once. */
export const photosOf = ({ blocks }: PaperDocument): string[] => [
  ...new Set(blocks.flatMap(block => (block.kind === 'photos' ? block.photos.map(photo => photo.path) : []))),
];
