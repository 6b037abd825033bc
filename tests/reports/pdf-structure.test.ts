import { NodeCompiler } from '@myriaddreamin/typst-ts-node-compiler';
import { describe, expect, it } from 'vitest';
import { canReadStructure, type Element, faultsOf, readStructure, type Structure } from './pdf-structure.ts';

const element = (type: string, changes: Partial<Element> = {}): Element => ({
  type,
  alt: null,
  scope: null,
  kids: [],
  marks: [],
  links: [],
  ...changes,
});

/** A document without fault: a heading and a paragraph on one page. */
const sound = (kids: Element[], changes: Partial<Structure> = {}): Structure => ({
  language: 'en',
  title: 'Cars',
  isMarked: true,
  root: [
    element('Document', {
      kids: [
        element('H1', { marks: [{ page: 1, id: 0 }] }),
        element('P', { marks: [{ page: 1, id: 1 }] }),
        ...kids,
      ],
    }),
  ],
  pages: [{ ids: [0, 1], bare: 0, texts: 2 }],
  links: new Map(),
  targets: new Map(),
  outline: [],
  ...changes,
});

const table = (head: Element) => element('Table', { kids: [element('TR', { kids: [head] })] });

describe('the checker of structure', () => {
  it.each<[string, Structure]>([
    ['no language is said', sound([], { language: null })],
    ['no title is said', sound([], { title: '' })],
    ['the document is not said to be tagged', sound([], { isMarked: false })],
    ['a heading of level 3 follows one of 1', sound([element('H3')])],
    ['a picture has no words', sound([element('Figure')])],
    ['a table has no heading cells', sound([table(element('TD'))])],
    ['a heading cell does not say what it heads', sound([table(element('TH'))])],
    ['TR stands in Document', sound([element('TR')])],
    ['a list holds what is no item', sound([element('L', { kids: [element('P')] })])],
    ['an item has no body', sound([element('L', { kids: [element('LI')] })])],
    ['content 1:1 stands in the structure twice', sound([element('P', { marks: [{ page: 1, id: 1 }] })])],
    [
      'the structure names content 1:7, which is not there',
      sound([element('P', { marks: [{ page: 1, id: 7 }] })]),
    ],
    ['content 1:2 is in no structure', sound([], { pages: [{ ids: [0, 1, 2], bare: 0, texts: 3 }] })],
    ['page 1 has text that is in no structure', sound([], { pages: [{ ids: [0, 1], bare: 1, texts: 3 }] })],
    ['no page has any text', sound([], { pages: [{ ids: [0, 1], bare: 0, texts: 0 }] })],
    ['a link is in no structure', sound([], { links: new Map([['9 0 R', 'Page 2']]) })],
    [
      'a link has no words',
      sound([element('Link', { links: ['9 0 R'] })], { links: new Map([['9 0 R', null]]) }),
    ],
    [
      'page 1 is read after page 2',
      sound([element('P', { marks: [{ page: 2, id: 0 }] }), element('P', { marks: [{ page: 1, id: 2 }] })], {
        pages: [
          { ids: [0, 1, 2], bare: 0, texts: 1 },
          { ids: [0], bare: 0, texts: 1 },
        ],
      }),
    ],
  ])('finds that %s', (fault, structure) => {
    expect(faultsOf(sound([]))).toEqual([]);
    expect(faultsOf(structure)).toContain(fault);
  });

  it.skipIf(!canReadStructure)('finds text that no tag holds in a real file', () => {
    const compiler = NodeCompiler.create({ workspace: '/checked' });
    compiler.addSource('/checked/main.typ', '#set document(title: "Cars")\n= Cars\nA red one.');
    const { result } = compiler.compile({ mainFilePath: '/checked/main.typ' });
    const tagged = compiler.pdf(result!, { pdfStandard: 'a-2a', creationTimestamp: 1 });
    const bare = compiler.pdf(result!, { pdfTags: false });
    expect(faultsOf(readStructure(tagged))).toEqual([]);
    expect(faultsOf(readStructure(bare))).toContain('page 1 has text that is in no structure');
  });
});
