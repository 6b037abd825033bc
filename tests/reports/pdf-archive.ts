import { type Dictionary, isDictionary, type Json, listOf, type PdfObjects } from './pdf-objects.ts';

/**
 * Checks a PDF, read by qpdf, against clauses of PDF/A-2a (ISO 19005-2) and PDF/UA-1 (ISO 14289-1) that a program can decide from its
 * objects. The clauses are given from memory of the standards; nothing of this was seen by the program that wrote the file. Not
 * checked: that a font's own programs are whole and have the widths that are told, colours within contents, and what only a reader can
 * judge. What structure and tags must be is in `pdf-structure.ts`.
 */

const forbiddenActions =
  /^\/(Launch|Sound|Movie|ResetForm|ImportData|Hide|SetOCGState|Rendition|Trans|GoTo3DView|JavaScript)$/;
const forbiddenAnnotations = /^\/(3D|Sound|Screen|Movie)$/;
const annotationFlags = { invisible: 1, hidden: 2, print: 4, noView: 32, toggleNoView: 256 };

/** The clauses that a file breaks, each with what breaks it; empty where none is found. */
export const archiveFaults = ({ header, objects }: PdfObjects, standard: 'a-2a' | 'ua-1'): string[] => {
  const faults: string[] = [];
  const isArchive = standard === 'a-2a';
  const tell = (isRight: boolean, clause: string, fault: string) => {
    if (!isRight) faults.push(`${isArchive ? '19005-2' : '14289-1'}, ${clause}: ${fault}`);
  };
  const at = (value: Json | undefined): Json => {
    if (typeof value !== 'string' || !/^\d+ 0 R$/.test(value)) return value ?? null;
    const found = objects[`obj:${value}`];
    return found?.value ?? found?.stream?.dict ?? null;
  };
  const dictionary = (value: Json | undefined): Dictionary => {
    const found = at(value);
    return isDictionary(found) ? found : {};
  };
  const trailer = dictionary(objects.trailer?.value);
  const catalog = dictionary(trailer['/Root']);
  const metadata = objects[`obj:${catalog['/Metadata']}`]?.stream;
  const xmp = Buffer.from(metadata?.data ?? '', 'base64').toString('utf8');
  tell(catalog['/AA'] === undefined, '6.5.2 / 7.19', 'the document acts by itself');
  tell(trailer['/Encrypt'] === undefined, '6.1.3 / 7.16', 'it is encrypted');
  tell(dictionary(catalog['/AcroForm'])['/XFA'] === undefined, '6.4.2 / 7.15', 'it has a dynamic form');
  tell(dictionary(catalog['/MarkInfo'])['/Marked'] === true, '6.7.2.2 / 7.1', 'it is not said to be tagged');
  tell(dictionary(catalog['/MarkInfo'])['/Suspects'] !== true, '7.1', 'its tags are said to be suspect');
  tell(isDictionary(at(catalog['/StructTreeRoot'])), '6.7.3.3 / 7.1', 'it has no structure');
  tell(typeof at(catalog['/Lang']) === 'string', '6.7.4 / 7.2', 'it has no language');
  tell(/<dc:title>[\s\S]*<rdf:li[^>]*>[^<]+</.test(xmp), '6.6.2 / 7.1', 'its metadata has no title');
  if (isArchive) {
    tell(/^%PDF-1\.[0-7][\r\n]+%[\x80-\xff]{4}/.test(header), '6.1.2', 'its header');
    tell(listOf(at(trailer['/ID'])).length === 2, '6.1.3', 'it has no ID');
    tell(
      /pdfaid:part>\s*2\s*</.test(xmp) && /pdfaid:conformance>\s*A\s*</.test(xmp),
      '6.6.4',
      'its metadata does not say part 2, level A',
    );
    const intents = listOf(at(catalog['/OutputIntents'])).map(dictionary);
    const intent = intents.find(one => one['/S'] === '/GTS_PDFA1') ?? {};
    tell(Number(dictionary(intent['/DestOutputProfile'])['/N']) > 0, '6.2.3', 'no profile of its colours');
    tell(dictionary(catalog['/Names'])['/EmbeddedFiles'] === undefined, '6.8', 'it holds files');
    tell(
      dictionary(catalog['/Names'])['/AlternatePresentations'] === undefined,
      '6.10',
      'it has other presentations',
    );
    tell(catalog['/Requirements'] === undefined, '6.11', 'it has requirements');
  } else {
    tell(/pdfuaid:part>\s*1\s*</.test(xmp), '5', 'its metadata does not say part 1');
    tell(
      dictionary(catalog['/ViewerPreferences'])['/DisplayDocTitle'] === true,
      '7.1',
      'its title is not shown instead of its name',
    );
  }
  for (const [name, { value, stream }] of Object.entries(objects)) {
    const own = stream?.dict ?? value;
    if (!isDictionary(own)) continue;
    const filters = listOf(at(own['/Filter']));
    if (stream && isArchive) {
      tell(
        !filters.some(filter => filter === '/LZWDecode' || filter === '/Crypt'),
        '6.1.7.2',
        `${name}: filter`,
      );
      tell(own['/F'] === undefined && own['/FFilter'] === undefined, '6.1.7.1', `${name}: is elsewhere`);
    }
    if (own['/Subtype'] === '/Image' && isArchive) {
      tell(own['/Alternates'] === undefined && own['/OPI'] === undefined, '6.2.8', `${name}: alternates`);
      tell(own['/Interpolate'] !== true, '6.2.8', `${name}: is interpolated`);
    }
    if (own['/Subtype'] === '/Form' && isArchive)
      tell(own['/Ref'] === undefined && own['/PS'] === undefined, '6.2.9', `${name}: refers to elsewhere`);
    tell(own['/Subtype'] !== '/PS', '6.2.9', `${name}: is PostScript`);
    if (typeof own['/S'] === 'string' && (own['/Type'] === '/Action' || own['/URI'] !== undefined))
      tell(!forbiddenActions.test(own['/S']), '6.5.1', `${name}: ${own['/S']}`);
    if (own['/Type'] === '/Page') {
      tell(own['/AA'] === undefined, '6.5.2', `${name}: a page acts by itself`);
      const annotations = listOf(at(own['/Annots'])).map(dictionary);
      if (!isArchive)
        tell(annotations.length === 0 || own['/Tabs'] === '/S', '7.18.3', `${name}: the order of its links`);
      for (const annotation of annotations) {
        const flags = Number(annotation['/F'] ?? 0);
        const { invisible, hidden, print, noView, toggleNoView } = annotationFlags;
        tell(!forbiddenAnnotations.test(String(annotation['/Subtype'])), '6.3.1', `${name}: an annotation`);
        if (!isArchive) continue;
        tell((flags & print) !== 0, '6.3.2', `${name}: an annotation is not printed`);
        tell((flags & (invisible | hidden | noView | toggleNoView)) === 0, '6.3.2', `${name}: hidden`);
        const needsLook = annotation['/Subtype'] !== '/Link' && annotation['/Subtype'] !== '/Popup';
        tell(!needsLook || isDictionary(at(annotation['/AP'])), '6.3.3', `${name}: has no look`);
      }
    }
    if (own['/Type'] === '/ExtGState' && isArchive)
      tell(own['/TR'] === undefined && own['/HTP'] === undefined, '6.2.5', `${name}: a transfer function`);
    if (own['/Type'] !== '/Font') continue;
    const subtype = String(own['/Subtype']);
    if (subtype === '/Type3') continue;
    if (subtype.startsWith('/CIDFont')) {
      const descriptor = dictionary(own['/FontDescriptor']);
      const file = descriptor['/FontFile3'] ?? descriptor['/FontFile2'] ?? descriptor['/FontFile'];
      tell(file !== undefined, '6.2.11.4.1 / 7.21.4.1', `${name}: is not embedded`);
      if (subtype === '/CIDFontType2')
        tell(own['/CIDToGIDMap'] !== undefined, '6.2.11.3.2 / 7.21.3.2', `${name}: no map of its glyphs`);
    } else if (subtype === '/Type0')
      tell(own['/ToUnicode'] !== undefined, '6.2.11.7.2 / 7.21.7', `${name}: does not tell its characters`);
    else tell(false, 'unchecked', `${name}: a font of kind ${subtype}`);
  }
  return faults;
};
