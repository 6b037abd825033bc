/** A reference to an indirect object, by its number. */
export interface PdfReference {
  ref: number;
}
/** Names, numbers, strings and keywords stay as they are written. */
export type PdfValue = string | PdfReference | PdfValue[] | PdfDictionary;
export type PdfDictionary = Map<string, PdfValue>;

const space = /[\0\t\n\f\r ]*(?:%[^\r\n]*[\0\t\n\f\r ]*)*/y;
const reference = /(\d+)[\0\t\n\f\r ]+0[\0\t\n\f\r ]+R(?![A-Za-z0-9])/y;
const token = /\/[^\0\t\n\f\r ()<>[\]{}/%]*|<[0-9A-Fa-f\0\t\n\f\r ]*>|[^\0\t\n\f\r ()<>[\]{}/%]+/y;

const match = (pattern: RegExp, text: string, at: number): RegExpExecArray | null => {
  pattern.lastIndex = at;
  return pattern.exec(text);
};

const afterSpace = (text: string, at: number): number => at + (match(space, text, at)?.[0].length ?? 0);

/** Where a string in parentheses ends; they nest, and a backslash takes the next character with it. */
const endOfString = (text: string, at: number): number => {
  let depth = 0;
  for (let i = at; i < text.length; i += 1) {
    const character = text[i];
    if (character === '\\') i += 1;
    else if (character === '(') depth += 1;
    else if (character === ')' && --depth === 0) return i + 1;
  }
  throw new Error('A string of the PDF does not end');
};

/**
 * Reads one value of PDF syntax (ISO 32000-1, 7.3) from text in which each character is a byte; returns it
 * with the place after it. Throws Error where there is none.
 */
export const parseValue = (text: string, from = 0): { value: PdfValue; end: number } => {
  let at = afterSpace(text, from);
  if (text.startsWith('<<', at)) {
    const entries: PdfDictionary = new Map();
    at = afterSpace(text, at + 2);
    while (!text.startsWith('>>', at)) {
      const key = parseValue(text, at);
      if (typeof key.value !== 'string' || key.value[0] !== '/')
        throw new Error('A key of the PDF is not a name');
      const { value, end } = parseValue(text, key.end);
      entries.set(key.value.slice(1), value);
      at = afterSpace(text, end);
    }
    return { value: entries, end: at + 2 };
  }
  if (text[at] === '[') {
    const items: PdfValue[] = [];
    at = afterSpace(text, at + 1);
    while (text[at] !== ']') {
      const { value, end } = parseValue(text, at);
      items.push(value);
      at = afterSpace(text, end);
    }
    return { value: items, end: at + 1 };
  }
  if (text[at] === '(') {
    const end = endOfString(text, at);
    return { value: text.slice(at, end), end };
  }
  const referred = match(reference, text, at);
  if (referred) return { value: { ref: Number(referred[1]) }, end: at + referred[0].length };
  const plain = match(token, text, at);
  if (!plain) throw new Error('The PDF is not written as expected');
  return { value: plain[0], end: at + plain[0].length };
};

export const isDictionary = (value: PdfValue | undefined): value is PdfDictionary => value instanceof Map;
export const isReference = (value: PdfValue | undefined): value is PdfReference =>
  typeof value === 'object' && !Array.isArray(value) && !isDictionary(value);

const needsSpace = (before: string, after: string): boolean =>
  before !== '' && !/[\])>]$/.test(before) && !/^[/([<]/.test(after);

/** The same value as text, without needless space. */
export const writeValue = (value: PdfValue): string => {
  if (typeof value === 'string') return value;
  if (Array.isArray(value)) {
    let text = '';
    for (const item of value) {
      const written = writeValue(item);
      text += needsSpace(text, written) ? ` ${written}` : written;
    }
    return `[${text}]`;
  }
  if (isDictionary(value)) {
    let text = '';
    for (const [key, entry] of value) {
      const written = writeValue(entry);
      text += `/${key}${/^[/([<]/.test(written) ? '' : ' '}${written}`;
    }
    return `<<${text}>>`;
  }
  return `${value.ref} 0 R`;
};

/**
 * A copy of a value in which every reference is another, and every other plain token, given the key under
 * which it stands, may be.
 */
export const rewritten = (
  value: PdfValue,
  change: { reference: (ref: number) => number; token: (key: string, token: string) => string },
  key = '',
): PdfValue => {
  if (typeof value === 'string') return change.token(key, value);
  if (Array.isArray(value)) return value.map(item => rewritten(item, change, key));
  if (isDictionary(value))
    return new Map([...value].map(([name, entry]) => [name, rewritten(entry, change, name)]));
  return { ref: change.reference(value.ref) };
};
