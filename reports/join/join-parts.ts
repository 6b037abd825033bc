import { createHash } from 'node:crypto';
import { arrayOf, dictionaryOf, numberOf, type PdfObject, type PdfPart, readPart } from './pdf-part.ts';
import {
  isDictionary,
  isReference,
  type PdfDictionary,
  type PdfReference,
  type PdfValue,
  rewritten,
  writeValue,
} from './pdf-values.ts';

/** The scheme of a link from one part to a label of another. */
const linkScheme = 'playworn:';

/** A heading that stands in the outline: its level, and the label by which other parts link to it. */
export interface OutlinedHeading {
  level: number;
  label?: string;
}

interface OutlineItem {
  title: string;
  destination: PdfReference;
  level: number;
}

/** What of a part stands in tables of the whole. */
interface JoinedPart {
  pages: PdfReference[];
  structure: PdfValue[];
  outline: OutlineItem[];
  names: [string, PdfReference][];
  catalog: PdfDictionary;
  roles: PdfDictionary;
  metadata: string;
}

/** A part whose objects are written, with what of it goes into the tables of the whole. */
interface AddedPart {
  catalog: PdfDictionary;
  structure: PdfDictionary;
  outline: Map<number, PdfDictionary>;
  /** How its references and keys read in the whole. */
  change: Parameters<typeof rewritten>[1];
  /** Keys of the parent tree that are taken by parts before it. */
  parentKeys: number;
  place: number;
  firstPage: number;
  headings: readonly OutlinedHeading[];
  infoValue: PdfValue | undefined;
}

/** Objects of the whole that are written last; those of parts follow them. */
const whole = { catalog: 1, pages: 2, structure: 3, document: 4, outline: 5, metadata: 6, info: 7 };

/** Longer streams are not compared. */
const mostShared = 1e6;

const ref = (number: number): PdfReference => ({ ref: number });
const dictionary = (entries: Record<string, PdfValue>): PdfDictionary => new Map(Object.entries(entries));
const inBrackets = (text: string): string => `(${text})`;

/** The items of an outline, by the numbers of their objects, in the order in which they are read. */
const outlineItems = (part: PdfPart, catalog: PdfDictionary): Map<number, PdfDictionary> => {
  const items = new Map<number, PdfDictionary>();
  const walk = (first: PdfValue | undefined): void => {
    for (let at = first; at !== undefined; ) {
      const item = dictionaryOf(part, at);
      items.set(numberOf(at), item);
      walk(item.get('First'));
      at = item.get('Next');
    }
  };
  const root = catalog.get('Outlines');
  if (root) walk(dictionaryOf(part, root).get('First'));
  return items;
};

/** Labels of a part to which it links itself, with the object that says where each is. */
const labelsOf = (part: PdfPart, catalog: PdfDictionary): [string, number][] => {
  const names = catalog.get('Names');
  if (!names) return [];
  const list = arrayOf(part, dictionaryOf(part, dictionaryOf(part, names).get('Dests')).get('Names'));
  return Array.from({ length: list.length / 2 }, (_, i) => [
    String(list[2 * i]).slice(1, -1),
    numberOf(list[2 * i + 1]),
  ]);
};

/**
 * Joins PDFs that Typst has made into one: pages, tags, outline and labels as if they had been set
 * together. Parts are added in any order, each with its place and the number of its first page;
 * a link to `playworn:NAME` becomes one to the heading of that label in a part that was added before. What
 * is held of a part that was added is its bytes and what the tables of the whole name.
 */
export class JoinedPdf {
  readonly #chunks: Uint8Array[] = [Buffer.from('%PDF-1.7\n%\x80\x80\x80\x80\n', 'latin1')];
  #length = this.#chunks[0]!.length;
  readonly #places = new Map<number, number>();
  #next = Object.keys(whole).length + 1;
  readonly #streams = new Map<string, number>();
  readonly #parts: JoinedPart[] = [];
  /** Where labels are, with their page counted from 1. */
  readonly #labels = new Map<string, { at: PdfReference; page: number }>();
  readonly #parents: PdfValue[] = [];
  #parentKeys = 0;
  readonly #ids: [string, PdfValue][] = [];

  #write(number: number, value: PdfValue, stream: Buffer | null = null): void {
    this.#places.set(number, this.#length);
    const pieces: Uint8Array[] = [Buffer.from(`${number} 0 obj\n${writeValue(value)}`, 'latin1')];
    if (stream) pieces.push(Buffer.from('\nstream\n'), stream, Buffer.from('\nendstream'));
    pieces.push(Buffer.from('\nendobj\n'));
    for (const piece of pieces) {
      this.#chunks.push(piece);
      this.#length += piece.length;
    }
  }

  /** The page of a label that was added, or undefined. */
  pageOf(label: string): number | undefined {
    return this.#labels.get(label)?.page;
  }

  /** A link to another part leads to where its label is. */
  #settledLink(annotation: PdfDictionary): void {
    const action = annotation.get('A');
    const target = isDictionary(action) && action.get('URI');
    if (typeof target !== 'string' || !target.startsWith(`(${linkScheme}`)) return;
    const label = this.#labels.get(target.slice(1 + linkScheme.length, -1));
    if (!label) throw new Error(`A report's link leads nowhere: ${target}`);
    annotation.delete('A');
    annotation.set('Dest', label.at);
    annotation.set('Contents', inBrackets(`Section, page ${label.page}`));
  }

  /** The number of the same object in an earlier part, where it has a stream and refers to nothing. */
  #sharedNumber({ value, stream }: PdfObject): number | undefined {
    if (!stream || stream.length > mostShared) return undefined;
    const written = writeValue(value);
    if (written.includes(' 0 R')) return undefined;
    const hash = createHash('sha256').update(written).update(stream).digest('base64');
    const known = this.#streams.get(hash);
    if (known === undefined) this.#streams.set(hash, this.#next);
    return known;
  }

  /** Adds a part at its place among the parts; `headings` are those of its outline. */
  add(
    pdf: Uint8Array,
    {
      place,
      firstPage,
      headings,
    }: { place: number; firstPage: number; headings: readonly OutlinedHeading[] },
  ): void {
    const part = readPart(Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength));
    const rootNumber = numberOf(part.trailer.get('Root'));
    const catalog = dictionaryOf(part, ref(rootNumber));
    const pagesNumber = numberOf(catalog.get('Pages'));
    const structureNumber = numberOf(catalog.get('StructTreeRoot'));
    const structure = dictionaryOf(part, ref(structureNumber));
    const documentNumber = numberOf(arrayOf(part, structure.get('K'))[0]);
    const metadataNumber = numberOf(catalog.get('Metadata'));
    const infoValue = part.trailer.get('Info');
    const numbers = new Map<number, number>([
      [rootNumber, whole.catalog],
      [pagesNumber, whole.pages],
      [structureNumber, whole.structure],
      [documentNumber, whole.document],
      [metadataNumber, whole.metadata],
      ...(isReference(infoValue) ? [[infoValue.ref, whole.info] as const] : []),
    ]);
    const outline = outlineItems(part, catalog);
    const outlineRoot = catalog.get('Outlines');
    const apart = new Set([...numbers.keys(), ...outline.keys()]);
    if (isReference(outlineRoot)) apart.add(outlineRoot.ref);
    // A part's objects are read once; what refers to nothing may be shared: colour profiles, pictures.
    const here = new Map<number, PdfObject>();
    for (const number of part.numbers) {
      if (apart.has(number)) continue;
      const object = part.object(number);
      const known = this.#sharedNumber(object);
      numbers.set(number, known ?? this.#next);
      if (known !== undefined) continue;
      here.set(number, object);
      this.#next += 1;
    }
    const parentKeys = this.#parentKeys;
    const change = {
      reference: (number: number) => {
        const found = numbers.get(number);
        if (found === undefined) throw new Error(`A part refers to the missing object ${number}`);
        return found;
      },
      token: (key: string, token: string) => {
        if (key === 'StructParents' || key === 'StructParent') return String(Number(token) + parentKeys);
        // Heading cells are named within their part.
        if ((key === 'ID' || key === 'Headers') && token[0] === '(')
          return inBrackets(`p${place}-${token.slice(1, -1)}`);
        return token;
      },
    };
    for (const [number, { value, stream }] of here) {
      const own = rewritten(value, change);
      if (isDictionary(own) && own.get('Subtype') === '/Link') this.#settledLink(own);
      this.#write(numbers.get(number)!, own, stream);
    }
    this.#noteTables(part, {
      catalog,
      structure,
      outline,
      change,
      parentKeys,
      place,
      firstPage,
      headings,
      infoValue,
    });
  }

  #noteTables(part: PdfPart, added: AddedPart): void {
    const { catalog, structure, outline, change, parentKeys, place, firstPage, headings, infoValue } = added;
    const moved = (value: PdfValue, key = ''): PdfValue => rewritten(value, change, key);
    const pages = arrayOf(part, dictionaryOf(part, catalog.get('Pages')).get('Kids'));
    const pageAt = new Map(pages.map((page, i) => [numberOf(page), firstPage + i]));
    if (outline.size !== headings.length)
      throw new Error(`A part has ${outline.size} headings instead of ${headings.length}`);
    const items = [...outline.values()].map((item, i) => {
      const at = numberOf(item.get('Dest'));
      const { level, label } = headings[i]!;
      const destination = ref(change.reference(at));
      const [page] = arrayOf(part, ref(at));
      if (label !== undefined)
        this.#labels.set(label, { at: destination, page: pageAt.get(numberOf(page))! });
      return { title: String(item.get('Title')), destination, level };
    });
    const parents = arrayOf(part, dictionaryOf(part, structure.get('ParentTree')).get('Nums'));
    for (let i = 0; i + 1 < parents.length; i += 2) {
      const key = Number(parents[i]) + parentKeys;
      this.#parents.push(String(key), moved(parents[i + 1]!));
      this.#parentKeys = Math.max(this.#parentKeys, key + 1);
    }
    const ids = structure.get('IDTree');
    const named = ids ? arrayOf(part, dictionaryOf(part, ids).get('Names')) : [];
    for (let i = 0; i + 1 < named.length; i += 2)
      this.#ids.push([String(moved(named[i]!, 'ID')), moved(named[i + 1]!)]);
    const [document] = arrayOf(part, structure.get('K'));
    const documentKids = arrayOf(part, dictionaryOf(part, document).get('K'));
    const metadata = part.object(numberOf(catalog.get('Metadata'))).stream;
    this.#parts[place] = {
      pages: pages.map(page => moved(page) as PdfReference),
      structure: documentKids.map(kid => moved(kid)),
      outline: items,
      names: labelsOf(part, catalog).map(([label, number]) => [label, ref(change.reference(number))]),
      catalog: moved(catalogWithoutTables(catalog)) as PdfDictionary,
      roles: structure.get('RoleMap') ? dictionaryOf(part, structure.get('RoleMap')) : new Map(),
      metadata: metadata?.toString('latin1') ?? '',
    };
    if (place === 0 && isReference(infoValue))
      this.#write(whole.info, moved(part.object(infoValue.ref).value));
  }

  #writeOutline(items: OutlineItem[]): void {
    const first = this.#next;
    this.#next += items.length;
    // The last item that is above each; -1 is the outline itself.
    const above: number[] = [];
    const trail: number[] = [];
    for (const [i, { level }] of items.entries()) {
      while (trail.length > 0 && items[trail.at(-1)!]!.level >= level) trail.pop();
      above.push(trail.at(-1) ?? -1);
      trail.push(i);
    }
    const kids = Map.groupBy(items.keys(), i => above[i]!);
    const at = (i: number): PdfReference => ref(i < 0 ? whole.outline : first + i);
    const ends = (i: number, closed: boolean): Record<string, PdfValue> => {
      const own = kids.get(i);
      return own
        ? { First: at(own[0]!), Last: at(own.at(-1)!), Count: String(closed ? -own.length : own.length) }
        : {};
    };
    for (const [parent, own] of kids)
      for (const [k, i] of own.entries()) {
        const item = items[i]!;
        this.#write(
          at(i).ref,
          dictionary({
            Parent: at(parent),
            ...(k > 0 && { Prev: at(own[k - 1]!) }),
            ...(k + 1 < own.length && { Next: at(own[k + 1]!) }),
            ...ends(i, true),
            Title: item.title,
            Dest: item.destination,
          }),
        );
      }
    this.#write(whole.outline, dictionary({ Type: '/Outlines', ...ends(-1, false) }));
  }

  #writeStructure(): void {
    const kids = this.#parts.flatMap(part => part.structure);
    this.#write(
      whole.document,
      dictionary({ Type: '/StructElem', S: '/Document', P: ref(whole.structure), K: kids }),
    );
    const ids = this.#ids.sort(([a], [b]) => (a < b ? -1 : 1)).flat();
    this.#write(
      whole.structure,
      dictionary({
        Type: '/StructTreeRoot',
        RoleMap: new Map(this.#parts.flatMap(part => [...part.roles])),
        K: [ref(whole.document)],
        ParentTree: dictionary({ Nums: this.#parents }),
        ParentTreeNextKey: String(this.#parentKeys),
        ...(ids.length > 0 && { IDTree: dictionary({ Names: ids }) }),
      }),
    );
  }

  /** The whole file; the same parts give the same bytes. */
  finish(): Uint8Array {
    const [front] = this.#parts;
    if (!front) throw new Error('A report has no first part');
    const pages = this.#parts.flatMap(part => part.pages);
    this.#write(whole.pages, dictionary({ Type: '/Pages', Count: String(pages.length), Kids: pages }));
    this.#writeStructure();
    const outline = this.#parts.flatMap(part => part.outline);
    this.#writeOutline(outline);
    const names = this.#parts.flatMap(part => part.names).sort(([a], [b]) => (a < b ? -1 : 1));
    this.#write(
      whole.catalog,
      new Map([
        ...front.catalog,
        ['Pages', ref(whole.pages)],
        ['Metadata', ref(whole.metadata)],
        ['StructTreeRoot', ref(whole.structure)],
        ['Outlines', ref(whole.outline)],
        [
          'Names',
          dictionary({
            Dests: dictionary({ Names: names.flatMap(([label, at]) => [inBrackets(label), at]) }),
          }),
        ],
      ]),
    );
    const hash = createHash('sha256');
    for (const chunk of this.#chunks) hash.update(chunk);
    const id = hash.digest().subarray(0, 16).toString('base64');
    const metadata = Buffer.from(
      front.metadata
        .replace(/(<xmpTPg:NPages>)\d+/, `$1${pages.length}`)
        .replace(/(<xmpMM:(?:InstanceID|DocumentID)>)[^<]*/g, `$1${id}`)
        .replace(/(<stEvt:instanceID>)[^<]*(_source<)/g, `$1${id}$2`),
      'latin1',
    );
    this.#write(
      whole.metadata,
      dictionary({ Length: String(metadata.length), Type: '/Metadata', Subtype: '/XML' }),
      metadata,
    );
    return this.#closed(id);
  }

  #closed(id: string): Uint8Array {
    const size = this.#next;
    let table = `xref\n0 ${size}\n0000000000 65535 f \n`;
    for (let number = 1; number < size; number += 1) {
      const at = this.#places.get(number);
      table += at === undefined ? '0000000000 00001 f \n' : `${String(at).padStart(10, '0')} 00000 n \n`;
    }
    const trailer = dictionary({
      Size: String(size),
      Root: ref(whole.catalog),
      ...(this.#places.has(whole.info) && { Info: ref(whole.info) }),
      ID: [inBrackets(id), inBrackets(id)],
    });
    const end = `${table}trailer\n${writeValue(trailer)}\nstartxref\n${this.#length}\n%%EOF\n`;
    return Buffer.concat([...this.#chunks, Buffer.from(end, 'latin1')]);
  }
}

/** What a catalogue says beside the tables that are made anew. */
const catalogWithoutTables = (catalog: PdfDictionary): PdfDictionary => {
  const made = new Set(['Pages', 'Metadata', 'StructTreeRoot', 'Outlines', 'Names']);
  return new Map([...catalog].filter(([key]) => !made.has(key)));
};
