import type { TableRow } from '../types.ts';
import { type FoundEncoding, wholeText } from './encoding.ts';

/** Larger files are no notes that somebody wrote by hand. */
const largest = 4_000_000;
/** Characters and lines by which such a file is known. */
const headLength = 16_384;
const mostLooked = 100;
const labelled = /^\s*[-*•]?\s*(\p{L}[\p{L}\p{N} ./#&'’()-]{0,39}?)\s*[:=]\s*(.*)$/u;

interface Line {
  /** From 1 on. */
  line: number;
  label: string | null;
  value: string;
}

const linesOf = (whole: string): Line[] =>
  whole.split(/\r\n|\n|\r/).map((written, at) => {
    const [, label, value] = labelled.exec(written) ?? [];
    return label === undefined
      ? { line: at + 1, label: null, value: written.trim() }
      : { line: at + 1, label, value: (value ?? '').trim() };
  });

const plain = (label: string): string => label.toLowerCase();

/**
 * The records of such a file: one ends at a blank line, or where its first label comes again. What has no label
 * belongs to the record before it, or stands above all of them.
 */
const blocksOf = (lines: readonly Line[]): { blocks: Line[][]; above: string[] } => {
  const above: string[] = [];
  const blocks: Line[][] = [];
  let block: Line[] = [];
  const end = () => {
    if (block.some(({ label }) => label !== null)) blocks.push(block);
    else if (blocks.length === 0) above.push(...block.map(({ value }) => value));
    else blocks.at(-1)?.push(...block);
    block = [];
  };
  for (const line of lines) {
    const isBlank = line.label === null && line.value === '';
    const first = block.find(({ label }) => label !== null)?.label;
    if (
      isBlank ||
      (line.label !== null && first !== undefined && first !== null && plain(first) === plain(line.label))
    )
      end();
    if (!isBlank) block.push(line);
  }
  end();
  return { blocks, above };
};

const toRows = (blocks: readonly Line[][]): TableRow[] => {
  const labels = new Map<string, string>();
  for (const { label } of blocks.flat())
    if (label !== null && !labels.has(plain(label))) labels.set(plain(label), label);
  const headings = [...labels.keys()];
  const others = headings.find(heading => /^(?:notes?|remarks?|comments?)$/.test(heading)) ?? 'notes';
  if (!labels.has(others)) {
    headings.push(others);
    labels.set(others, 'Notes');
  }
  const rows = blocks.map(block => ({
    line: block[0]?.line ?? 1,
    cells: headings.map(heading =>
      block
        .filter(({ label }) => (label === null ? others : plain(label)) === heading)
        .map(({ value }) => value)
        .filter(Boolean)
        .join('\n'),
    ),
  }));
  return [
    { line: rows[0]?.line ?? 1, cells: headings.map(heading => labels.get(heading) ?? heading) },
    ...rows,
  ];
};

/** True where most lines at the head of a file have a label, and several of these are known. */
const isLabelled = (lines: readonly Line[], isHeading: (label: string) => boolean): boolean => {
  const filled = lines.filter(({ label, value }) => label !== null || value !== '');
  const known = filled.filter(({ label }) => label !== null && isHeading(label));
  return (
    new Set(known.map(({ label }) => plain(label ?? ''))).size >= 2 && known.length >= filled.length * 0.6
  );
};

/**
 * The rows of a text in which each record is some lines such as "Car: Ashlock": the labels as headings, then a
 * row for each record, with what has no label among its notes; and what stands above them all. Null for any other
 * text; `isHeading` tells labels that are known.
 */
export const readLabelled = async (
  file: Blob,
  encoding: FoundEncoding,
  isHeading: (label: string) => boolean,
): Promise<{ rows: TableRow[]; above: string[] } | null> => {
  if (file.size > largest) return null;
  const head = linesOf(await wholeText(file.slice(0, encoding.skip + headLength), encoding));
  if (!isLabelled(head.slice(0, mostLooked), isHeading)) return null;
  const { blocks, above } = blocksOf(linesOf(await wholeText(file, encoding)));
  return { rows: toRows(blocks), above };
};
