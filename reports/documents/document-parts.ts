import type { OutlinedHeading } from '../join/join-parts.ts';
import type { DocumentBlock, PaperDocument } from './document.ts';

/** A paper of more lines, rows and items than this is set in parts. */
export const mostInOne = 4000;
/** Lines, rows and items that a part holds about: so much bounds the memory in which it is set. */
export const mostLines = 1000;

/** A stretch of a paper's blocks, with what its outline has. */
export interface DocumentPart {
  blocks: DocumentBlock[];
  /** Begins the paper, with its title. */
  opens: boolean;
  headings: OutlinedHeading[];
}

const linesOf = (block: DocumentBlock): number =>
  block.kind === 'table' ? block.rows.length : block.kind === 'checklist' ? block.items.length : 1;

const piecesOf = <T>(list: readonly T[]): T[][] =>
  Array.from({ length: Math.max(1, Math.ceil(list.length / mostLines)) }, (_, i) =>
    list.slice(i * mostLines, (i + 1) * mostLines),
  );

/** A long table as several, each with the heading cells, the last with the total; a long list likewise. */
const cutBlock = (block: DocumentBlock): DocumentBlock[] => {
  if (block.kind === 'checklist') return piecesOf(block.items).map(items => ({ ...block, items }));
  if (block.kind !== 'table') return [block];
  const { total, ...table } = block;
  const pieces = piecesOf(table.rows);
  return pieces.map((rows, i) => ({ ...table, rows, ...(total && i === pieces.length - 1 && { total }) }));
};

const headingsOf = (blocks: readonly DocumentBlock[], opens: boolean): OutlinedHeading[] => [
  ...(opens ? [{ level: 1 }] : []),
  ...blocks.flatMap(block => (block.kind === 'heading' ? [{ level: block.level }] : [])),
];

/**
 * A paper in stretches, each to be set as a document of its own; a paper that is not long as one. It is cut
 * before sections, and within a table or list that is long itself.
 */
export const documentParts = ({ blocks }: Pick<PaperDocument, 'blocks'>): DocumentPart[] => {
  const lines = blocks.reduce((sum, block) => sum + linesOf(block), 0);
  if (lines <= mostInOne) return [{ blocks, opens: true, headings: headingsOf(blocks, true) }];
  const parts: DocumentBlock[][] = [[]];
  let held = 0;
  for (const block of blocks)
    for (const [i, piece] of cutBlock(block).entries()) {
      const isCut = i > 0 || (piece.kind === 'heading' && piece.level <= 2);
      if (isCut && held >= mostLines) {
        parts.push([]);
        held = 0;
      }
      parts.at(-1)!.push(piece);
      held += linesOf(piece);
    }
  return parts.map((own, i) => ({ blocks: own, opens: i === 0, headings: headingsOf(own, i === 0) }));
};
