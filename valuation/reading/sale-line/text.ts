/** A piece of a line, by the places of its characters. */
export interface Span {
  start: number;
  end: number;
}

// Marks that no text uses, in the place of what was read.
const understood = '\ue000';
const doubted = '\ue001';

/**
 * One character without its accent and in small letters; a character that would not stay one is left alone.
 */
const foldCharacter = (character: string): string => {
  const plain = (character.normalize('NFD')[0] ?? character).toLowerCase();
  if (plain.length !== 1) return character;
  if (plain === understood || plain === doubted) return ' ';
  if (/[\u00a0\u2007\u2009\u202f\t]/.test(plain)) return plain === '\t' ? '|' : ' ';
  if (plain === '\u2019') return "'";
  if (/[\u2013\u2014\u2212]/.test(plain)) return '-';
  return plain;
};

/** Texts whose letters have no accents, nor signs that are compared as others. */
const isPlain = /^[\x20-\x7e\n]*$/;

/** The text with letters as they are compared, character for character. */
export const fold = (text: string): string => {
  const folded = isPlain.test(text)
    ? text.toLowerCase()
    : Array.from({ length: text.length }, (_, at) => foldCharacter(text[at] ?? '')).join('');
  if (!folded.includes('w/')) return folded;
  // "With" stands one space before what it is with, "w/ box" as "w/box".
  return folded.replace(/(?<!\p{L})w\/ (?=\S)/gu, ' w ').replace(/(?<!\p{L})w\/(?!o(?!\p{L}))/gu, 'w ');
};

const compiled = new Map<string, RegExp>();
const mostCompiled = 2000;

/**
 * A pattern that begins and ends between words; compiled once, since the same ones are asked for
 * line after line.
 */
export const words = (pattern: string): RegExp => {
  const known = compiled.get(pattern);
  if (known) return known;
  if (compiled.size >= mostCompiled) compiled.clear();
  const made = new RegExp(`(?<![\\p{L}\\p{N}])(?:${pattern})(?![\\p{L}\\p{N}])`, 'dgu');
  compiled.set(pattern, made);
  return made;
};

export const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');

/** A line as far as it has been read: what was taken is out of the way of what is looked for next. */
export interface Line {
  readonly text: string;
  readonly folded: string;
  /** The folded text with marks in the place of what was taken. */
  rest(): string;
  take(span: Span): void;
  /** Takes a text out of the way that was not understood: it is told as unread. */
  doubt(span: Span): void;
  matches(pattern: RegExp): RegExpExecArray[];
  /** The stretches that nobody took, without the words that say nothing. */
  leftover(fillers: ReadonlySet<string>): string[];
}

/** A line of which nothing is read yet. */
export const newLine = (text: string): Line => {
  const folded = fold(text);
  let rest = folded;
  const mark = ({ start, end }: Span, sign: string) => {
    rest = rest.slice(0, start) + sign.repeat(end - start) + rest.slice(end);
  };
  return {
    text,
    folded,
    rest: () => rest,
    take: span => mark(span, understood),
    doubt: span => mark(span, doubted),
    matches: pattern => [...rest.matchAll(pattern)],
    leftover(fillers) {
      const left: string[] = [];
      for (const piece of rest.matchAll(/[^\ue000,;|()[\]]+/g)) {
        // A dash with room around it parts two remarks.
        for (const remark of piece[0].matchAll(/(?:(?! - |: )[\s\S])+/g)) {
          const start = piece.index + remark.index;
          const tokens = [...remark[0].matchAll(/[\p{L}\p{N}\ue001½+$€£]+(?:['/.-][\p{L}\p{N}]+)*/gu)];
          const telling = tokens.filter(token => !fillers.has(token[0]));
          const [first, last] = [telling[0], telling.at(-1)];
          if (first && last)
            left.push(text.slice(start + first.index, start + last.index + last[0].length).trim());
        }
      }
      return left;
    },
  };
};

export const spanOf = (match: RegExpExecArray, group: number | string = 0): Span => {
  const found = typeof group === 'number' ? match.indices?.[group] : match.indices?.groups?.[group];
  return { start: found?.[0] ?? match.index, end: found?.[1] ?? match.index + match[0].length };
};
