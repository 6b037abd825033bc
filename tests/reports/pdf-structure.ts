import { execFileSync } from 'node:child_process';
import { type Dictionary, isDictionary, type Json, listOf, readObjects } from './pdf-objects.ts';

const isReference = (value: Json | undefined): value is string =>
  typeof value === 'string' && /^\d+ 0 R$/.test(value);

/** Structure types of ISO 32000-1, 14.8.4, as far as PDF/UA-1 lets them stand. */
const standardTypes = new Set(
  'Document Part Art Sect Div BlockQuote Caption TOC TOCI Index NonStruct Private P H H1 H2 H3 H4 H5 H6 L LI Lbl LBody Table TR TH TD THead TBody TFoot Span Quote Note Reference BibEntry Code Link Annot Figure Formula Form Ruby Warichu'.split(
    ' ',
  ),
);

/** What shows text (ISO 32000-1, 9.4.3), and what begins and ends marked content (14.6). */
const contentTokens =
  /\((?:\\[\s\S]|[^\\()])*\)|<<[\s\S]*?>>|<[0-9A-Fa-f\s]*>|\/[^\s()<>[\]{}/%]+|[^\s()<>[\]{}/%]+|[[\]]/g;

interface MarkedPage {
  /** Marks of content that belongs to the structure, in the order in which it is drawn. */
  ids: number[];
  /** Text that is neither in the structure nor said to be decoration. */
  bare: number;
  /** All texts. */
  texts: number;
}

const readContent = (content: string): MarkedPage => {
  const page: MarkedPage = { ids: [], bare: 0, texts: 0 };
  const open: ('tagged' | 'decoration' | 'other')[] = [];
  let before: string[] = [];
  for (const [token] of content.matchAll(contentTokens)) {
    if (token === 'BDC' || token === 'BMC') {
      const id = /\/MCID (\d+)/.exec(before.join(' '));
      if (id) page.ids.push(Number(id[1]));
      open.push(id ? 'tagged' : before.includes('/Artifact') ? 'decoration' : 'other');
    } else if (token === 'EMC') open.pop();
    else if (/^(?:Tj|TJ|'|")$/.test(token)) {
      page.texts += 1;
      if (open.every(kind => kind === 'other')) page.bare += 1;
    }
    before = [...before.slice(-3), token];
  }
  return page;
};

/** One element of the structure, with what it holds. */
export interface Element {
  type: string;
  alt: string | null;
  scope: string | null;
  kids: Element[];
  /** Marked content: page, counted from 1, and mark. */
  marks: { page: number; id: number }[];
  /** Annotations that it encloses. */
  links: string[];
}

export interface Structure {
  language: string | null;
  title: string | null;
  isMarked: boolean;
  root: Element[];
  pages: MarkedPage[];
  /** Link annotations by their object, with what readers hear of each. */
  links: Map<string, string | null>;
  /** Where links within the document lead, with what readers hear. */
  targets: Map<string, { page: number; words: string | null }>;
  outline: { title: string; level: number; page: number }[];
}

const textOf = (value: Json | undefined): string | null =>
  typeof value === 'string' && /^[ub]:/.test(value) ? value.slice(2) : null;

/** Reads structure and marked content of a PDF with qpdf, which had no part in writing it. */
export const readStructure = (pdf: Uint8Array): Structure => {
  const { objects } = readObjects(pdf, 'generalized');
  const at = (value: Json | undefined): Json => {
    if (!isReference(value)) return value ?? null;
    const found = objects[`obj:${value}`];
    return found?.value ?? found?.stream?.dict ?? null;
  };
  const dictionary = (value: Json | undefined): Dictionary => {
    const found = at(value);
    return isDictionary(found) ? found : {};
  };
  const trailer = dictionary(objects.trailer?.value);
  const catalog = dictionary(trailer['/Root']);
  const roles = dictionary(dictionary(catalog['/StructTreeRoot'])['/RoleMap']);
  const pages: MarkedPage[] = [];
  const numberOfPage = new Map<string, number>();
  const links = new Map<string, string | null>();
  const walkPages = (node: Json | undefined): void => {
    const own = dictionary(node);
    if (own['/Type'] === '/Pages') {
      for (const kid of listOf(at(own['/Kids']))) walkPages(kid);
      return;
    }
    numberOfPage.set(String(node), pages.length + 1);
    const content = listOf(isReference(own['/Contents']) ? own['/Contents'] : at(own['/Contents']))
      .map(part => Buffer.from(objects[`obj:${part}`]?.stream?.data ?? '', 'base64').toString('latin1'))
      .join('\n');
    pages.push(readContent(content));
    for (const annotation of listOf(at(own['/Annots'])))
      if (dictionary(annotation)['/Subtype'] === '/Link')
        links.set(String(annotation), textOf(dictionary(annotation)['/Contents']));
  };
  walkPages(catalog['/Pages']);
  const names = listOf(at(dictionary(dictionary(catalog['/Names'])['/Dests'])['/Names']));
  const named = (text: string): Json | undefined => names[names.indexOf(text) + 1];
  const pageOf = (target: Json | undefined): number => {
    const found = typeof target === 'string' && !isReference(target) ? at(named(target)) : at(target);
    return numberOfPage.get(String(listOf(found)[0])) ?? 0;
  };
  const targets = new Map(
    [...links].flatMap(([link, words]) => {
      const target = dictionary(link)['/Dest'];
      return target ? [[link, { page: pageOf(target), words }] as const] : [];
    }),
  );
  const outline: Structure['outline'] = [];
  const walkOutline = (first: Json | undefined, level: number): void => {
    for (let item = first; item; item = dictionary(item)['/Next']) {
      const own = dictionary(item);
      outline.push({ title: textOf(own['/Title']) ?? '', level, page: pageOf(own['/Dest']) });
      walkOutline(own['/First'], level + 1);
    }
  };
  walkOutline(dictionary(catalog['/Outlines'])['/First'], 1);
  const elementOf = (node: Json | undefined): Element => {
    const own = dictionary(node);
    const said = String(own['/S']).slice(1);
    const role = standardTypes.has(said) ? said : String(roles[`/${said}`] ?? `/${said}`).slice(1);
    const element: Element = {
      type: role,
      alt: textOf(own['/Alt']),
      scope: null,
      kids: [],
      marks: [],
      links: [],
    };
    for (const attributes of listOf(at(own['/A'])).map(dictionary))
      if (attributes['/Scope']) element.scope = String(attributes['/Scope']).slice(1);
    for (const kid of listOf(at(own['/K']))) {
      const inner = at(kid);
      const page =
        numberOfPage.get(String(isDictionary(inner) ? (inner['/Pg'] ?? own['/Pg']) : own['/Pg'])) ?? 0;
      if (typeof inner === 'number') element.marks.push({ page, id: inner });
      else if (isDictionary(inner) && inner['/Type'] === '/MCR')
        element.marks.push({ page, id: Number(inner['/MCID']) });
      else if (isDictionary(inner) && inner['/Type'] === '/OBJR') element.links.push(String(inner['/Obj']));
      else element.kids.push(elementOf(kid));
    }
    return element;
  };
  return {
    language: textOf(catalog['/Lang']),
    title: textOf(dictionary(trailer['/Info'])['/Title']),
    isMarked: dictionary(catalog['/MarkInfo'])['/Marked'] === true,
    root: listOf(at(dictionary(catalog['/StructTreeRoot'])['/K'])).map(elementOf),
    pages,
    links,
    targets,
    outline,
  };
};

const walk = function* (
  elements: readonly Element[],
  above: readonly Element[] = [],
): Generator<[Element, readonly Element[]]> {
  for (const element of elements) {
    yield [element, above];
    yield* walk(element.kids, [...above, element]);
  }
};

/** Which elements may stand directly in which; the others may stand anywhere. */
const places: Record<string, readonly string[]> = {
  LI: ['L'],
  LBody: ['LI'],
  Lbl: ['LI', 'Note'],
  TR: ['Table', 'THead', 'TBody', 'TFoot'],
  TH: ['TR'],
  TD: ['TR'],
  THead: ['Table'],
  TBody: ['Table'],
  TFoot: ['Table'],
};

/**
 * What is wrong with a document's structure, in words; empty where a reader can be led through it: its
 * language and title, all text either in the structure once or decoration, pages in their order,
 * headings without a gap, tables with heading cells that say what they head, lists of items, pictures and
 * links with words.
 */
export const faultsOf = ({ language, title, isMarked, root, pages, links }: Structure): string[] => {
  const faults: string[] = [];
  if (!language) faults.push('no language is said');
  if (!title) faults.push('no title is said');
  if (!isMarked) faults.push('the document is not said to be tagged');
  if (root.length !== 1 || root[0]?.type !== 'Document') faults.push('the structure has no one document');
  const seen = new Set<string>();
  const linked = new Set<string>();
  let level = 0;
  let lastPage = 1;
  for (const [element, above] of walk(root)) {
    const { type, kids, marks } = element;
    const parent = above.at(-1)?.type ?? '';
    if (!standardTypes.has(type)) faults.push(`${type} is no type of a structure`);
    if (places[type] && !places[type].includes(parent)) faults.push(`${type} stands in ${parent}`);
    if (type === 'L' && !kids.every(kid => kid.type === 'LI' || kid.type === 'Caption'))
      faults.push('a list holds what is no item');
    if (type === 'LI' && !kids.some(kid => kid.type === 'LBody')) faults.push('an item has no body');
    if (type === 'Table') {
      const cells = [...walk(kids)].map(([cell]) => cell).filter(cell => cell.type === 'TH');
      if (cells.length === 0) faults.push('a table has no heading cells');
    }
    if (type === 'TH' && !element.scope) faults.push('a heading cell does not say what it heads');
    if (type === 'Figure' && !element.alt) faults.push('a picture has no words');
    const heading = /^H([1-6])$/.exec(type);
    if (heading) {
      const now = Number(heading[1]);
      if (now > level + 1) faults.push(`a heading of level ${now} follows one of ${level}`);
      level = now;
    }
    for (const { page, id } of marks) {
      const mark = `${page}:${id}`;
      if (seen.has(mark)) faults.push(`content ${mark} stands in the structure twice`);
      seen.add(mark);
      if (page < lastPage) faults.push(`page ${page} is read after page ${lastPage}`);
      lastPage = page;
    }
    for (const link of element.links) linked.add(link);
  }
  for (const [i, { ids, bare }] of pages.entries()) {
    if (bare > 0) faults.push(`page ${i + 1} has text that is in no structure`);
    for (const id of ids)
      if (!seen.delete(`${i + 1}:${id}`)) faults.push(`content ${i + 1}:${id} is in no structure`);
  }
  for (const mark of seen) faults.push(`the structure names content ${mark}, which is not there`);
  for (const [link, words] of links) {
    if (!linked.has(link)) faults.push('a link is in no structure');
    if (!words) faults.push('a link has no words');
  }
  if (pages.every(({ texts }) => texts === 0)) faults.push('no page has any text');
  return [...new Set(faults)];
};

/** Whether qpdf, which reads the structure, is here. */
export const canReadStructure = ((): boolean => {
  try {
    execFileSync('qpdf', ['--version'], { stdio: 'ignore' });
    return true;
  } catch {
    console.warn('SKIPPED: qpdf is not installed, so no structure of a PDF is checked.');
    return false;
  }
})();
