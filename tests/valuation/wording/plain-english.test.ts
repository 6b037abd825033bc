import { readdirSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { parseSync } from 'vite';
import { describe, expect, it } from 'vitest';
import { spellings } from '../../../valuation/wording/dialect.ts';

const root = join(import.meta.dirname, '../../..');
/** Whatever is read on screen, in a report or in a terminal is written in these. */
const places = [
  'renderer',
  'reports',
  'electron/api',
  'electron/cli',
  'electron/main',
  'electron/browser-host',
  'electron/launcher',
  'electron/service',
  'electron/demo',
  'db',
  'valuation/wording',
  'valuation/reading',
  'valuation/work/steps',
  'valuation/money.ts',
  'valuation/words.ts',
];

/**
 * Not looked through for words of one dialect: texts that are put through `spell` where they are shown, the
 * names and headings of columns in files, words that are read in texts of others, words as they are stored,
 * and the headings of a bag.
 */
const ofNoDialect = new Set([
  'db/archive/make-archive.ts',
  'db/import/columns.ts',
  'db/import/heading-words.ts',
  'db/import/ledgers/columns.ts',
  'db/reference/reference-filler.ts',
  'electron/demo/drawing/sheet.ts',
  'electron/demo/photos.ts',
  'electron/demo/work/plans.ts',
  'renderer/screens/cars/car/photographs/photo-details.tsx',
  'valuation/wording/work/cautions.ts',
  'valuation/wording/dialect.ts',
  'valuation/wording/view-text.ts',
  'renderer/screens/lots/import/choose-file.tsx',
  'renderer/screens/lots/import/paste-text.tsx',
  'valuation/reading/plain-colour.ts',
  'valuation/reading/sale-line/spellings.ts',
  'valuation/reading/sale-line/vocabulary.ts',
  'valuation/words.ts',
]);

interface Text {
  place: string;
  says: string;
}

type Node = { type?: string; start: number; end: number } & Record<string, unknown>;

/** Attributes and properties that a reader does not see. */
const unread = new Set(['className', 'queryKey', 'd', 'key']);

const isRead = (says: string, jsx: boolean): boolean =>
  /[a-z]{2}/i.test(says) && (jsx || says.trim().includes(' ') || /^[A-Z][a-z]/.test(says));

/** The literals and the text between tags of one source file, without the arguments of `spell`. */
const textsOf = (file: string, source: string): Text[] => {
  const texts: Text[] = [];
  const add = (node: Node, says: string, jsx = false) => {
    const line = source.slice(0, node.start).split('\n').length;
    if (isRead(says, jsx))
      texts.push({ place: `${file}:${line}`, says: says.replaceAll(/\s+/g, ' ').trim() });
  };
  const visit = (value: unknown): void => {
    if (Array.isArray(value)) {
      for (const one of value) visit(one);
      return;
    }
    if (typeof value !== 'object' || value === null) return;
    const node = value as Node;
    if (node.type?.startsWith('Import') || node.type?.startsWith('TS')) {
      // Types say nothing to a reader; an expression inside `as` or `satisfies` may.
      if ('expression' in node) visit(node.expression);
      return;
    }
    if (
      node.type === 'CallExpression' &&
      /(?:^|\.)spell$/.test(source.slice((node.callee as Node).start, (node.callee as Node).end))
    )
      return;
    if (node.type === 'JSXAttribute' && unread.has(String((node.name as Node).name))) return;
    if (node.type === 'Property' && unread.has(String((node.key as Node).name))) return;
    if (node.type === 'Literal' && typeof node.value === 'string') add(node, node.value);
    if (node.type === 'TemplateElement') add(node, (node.value as { cooked: string }).cooked);
    if (node.type === 'JSXText') add(node, String(node.value), true);
    for (const [key, child] of Object.entries(node)) if (key !== 'type') visit(child);
  };
  visit(parseSync(file, source).program);
  return texts;
};

const filesUnder = (place: string): string[] =>
  extname(place) !== ''
    ? [place]
    : readdirSync(join(root, place), { recursive: true, withFileTypes: true })
        .filter(entry => entry.isFile())
        .map(entry => join(entry.parentPath, entry.name).slice(root.length + 1));

const typstTexts = (file: string, source: string): Text[] =>
  source.split('\n').flatMap((line, index) =>
    [...line.replace(/\/\/.*$/, '').matchAll(/"([^"]*)"|\[([^\]]*)\]/g)]
      .map(([, quoted, bracketed]) => quoted ?? bracketed ?? '')
      .filter(says => says.includes(' '))
      .map(says => ({ place: `${file}:${index + 1}`, says })),
  );

const texts = places.flatMap(filesUnder).flatMap(file => {
  const source = readFileSync(join(root, file), 'utf8');
  if (extname(file) === '.typ') return typstTexts(file, source);
  return /\.tsx?$/.test(file) ? textsOf(file, source) : [];
});

const found = (pattern: RegExp, among = texts) =>
  among.filter(({ says }) => pattern.test(says)).map(({ place, says }) => `${place}: ${says}`);

const anyOf = (words: readonly string[]) => new RegExp(`\\b(?:${words.join('|')})\\b`, 'i');

/** Turns that a reader of today stumbles over, or names that the program has given up for another. */
const archaic = anyOf([
  'worths',
  'anew',
  'foretell',
  'let go',
  'four times in five',
  'so long as',
  'were it',
  'for want of',
  '(?:below|above) nothing',
  'day to come',
  '(?:where it|it) lies',
  'do again',
  'keys of this screen',
  'dearest',
  'sales records',
  'take(?:n)? off',
  'so many of',
  'that there are',
  'totalled apart',
  '(?:is|are) no (?!longer|more|room\\b)(?<!there (?:is|are) no )(?<!as that is no )\\w+',
  'lies?',
  'lain',
  'parted',
  'undo parts',
  'stands? (?:in|on|under|above|alone|among|here|there|where|more|over)',
  '(?:own|then|car’s|as found) worth',
  'worth (?:strip|now|after)',
  'known better',
  '(?:to|told) (?:its|their) end',
  'of whom',
  'this name already',
  'besides',
  'all the same',
  'finish may go',
  'out of sight',
  'for nothing',
  'mended',
  'noted of',
  'went on with',
]);

/**
 * Spellings and words of one side of the Atlantic that the dialect does not have: whoever needs one adds it
 * there, or finds a word of both.
 */
const ofOneSide = anyOf([
  '(?:behavi|hon|fav|flav|harb|rum|splend)ou?r(?:s|ed|ing|able)?',
  '(?:centi|milli|kilo)?met(?:re|er)s?',
  'lit(?:re|er)s?',
  'fib(?:re|er)s?',
  '(?:travel|model|level|fuel|dial|marvel|signal)l(?:ed|ing|er)',
  '(?:de|of)fen[cs]e',
  's[ck]eptic(?:al)?',
  'plough|plow|mou?ld(?:ed|ing)?',
  '(?:organ|apolog|summar|minim|maxim|optim|emphas|character|standard|initial|final|author|util|categor|special|priorit|memor)i[sz](?:e[ds]?|ing|ation)',
  '(?:ana|para)ly[sz](?:e[ds]?|ing)',
  'programmes?|cheques?|kerbs?|store(?:y|ys)|jewell?ery|pyjamas|pajamas',
  'saloons?|sedans?|bonnets?|windscreens?|windshields?|petrol|gasoline|spanners?|wrench(?:es)?',
  'vice|vise|autumn|postage|postcode|zip code|fortnight|whilst|amongst|towards|learnt|spelt|spoilt|burnt',
  '(?:in|by) the (?:post|mail)',
  'tick(?:ed|s)?(?: (?:off|one|it|the))',
]);

/** American words that mean something else in British English, or the same in both. */
const inBoth = new Set(['draft', 'license', 'shipping', 'left side', 'right side']);

describe('every text that is read', () => {
  it('is found: labels, messages, reports and the command line', () => {
    const says = texts.map(text => text.says);
    for (const known of [
      'Choose the best set',
      'How values are estimated',
      'rebuild the indexes and the search index first',
      'How to read the value strip',
      'No collection is open. Open one, or start a new one.',
    ])
      expect(says).toContain(known);
    expect(says.length).toBeGreaterThan(1500);
  });
  it('is in present-day English', () => {
    expect(found(archaic)).toEqual([]);
    for (const says of ['The worths are shared anew', 'it is no ZIP file', 'the file in which it lies'])
      expect(found(archaic, [{ place: 'x', says }])).toHaveLength(1);
    expect(found(archaic, [{ place: 'x', says: 'There is no backup; it is no longer there.' }])).toEqual([]);
  });
  it('takes words that the UK and the US write differently from the dialect alone', () => {
    const ofOne = anyOf(spellings.flat().filter(word => !inBoth.has(word)));
    const outside = texts.filter(({ place }) => !ofNoDialect.has(place.replace(/:\d+$/, '')));
    expect(found(ofOne, outside)).toEqual([]);
    expect(found(ofOneSide, outside)).toEqual([]);
    expect(found(ofOneSide, [{ place: 'x', says: 'damaged in the post' }])).toHaveLength(1);
    expect(found(ofOne, textsOf('x.ts', "const a = ['Choose a color', 'Choose a colour'];"))).toHaveLength(2);
    expect(textsOf('x.ts', "const a = words.spell('Choose a colour');")).toEqual([]);
  });
  it('of the README too is in present-day English', () => {
    const readme = readFileSync(join(root, 'README.md'), 'utf8').split('\n');
    expect(
      found(
        archaic,
        readme.map((says, line) => ({ place: `README.md:${line + 1}`, says })),
      ),
    ).toEqual([]);
  });
});
