import { beforeAll, describe, expect, it } from 'vitest';
import { createDocumentPdf } from '../../reports/typesetting/pdf.ts';
import { archiveFaults } from './pdf-archive.ts';
import { type Dictionary, type PdfObjects, readObjects } from './pdf-objects.ts';
import { canReadStructure } from './pdf-structure.ts';

const document = {
  title: 'Paper',
  subtitle: 'of one page',
  author: '',
  footer: 'Records',
  paper: 'a4' as const,
  blocks: [{ kind: 'paragraph' as const, text: 'Words' }],
};
const stampedAt = '2026-03-14T00:00:00Z';
const made = async (standard: 'a-2a' | 'ua-1' | '1.7') =>
  readObjects((await createDocumentPdf(document, { stampedAt, standard })).pdf);

const entries = ({ objects }: PdfObjects): Dictionary[] =>
  Object.values(objects).flatMap(({ value, stream }) => {
    const own = stream?.dict ?? value;
    return typeof own === 'object' && own !== null && !Array.isArray(own) ? [own] : [];
  });
const first = (pdf: PdfObjects, key: string, value: string): Dictionary => {
  const found = entries(pdf).find(own => own[key] === value);
  if (!found) throw new Error(`No object with ${key} ${value}`);
  return found;
};
const without = (pdf: PdfObjects, ...keys: string[]) => {
  for (const own of entries(pdf)) for (const key of keys) delete own[key];
};
const catalog = (pdf: PdfObjects) => first(pdf, '/Type', '/Catalog');
const trailer = (pdf: PdfObjects) => pdf.objects.trailer!.value as Dictionary;

describe.skipIf(!canReadStructure)('the check of PDF/A-2a and PDF/UA-1', () => {
  const whole = new Map<string, PdfObjects>();
  beforeAll(async () => {
    for (const standard of ['a-2a', 'ua-1', '1.7'] as const) whole.set(standard, await made(standard));
  });
  const copy = (standard: string) => structuredClone(whole.get(standard)!);

  it('finds nothing in a paper of each, and that another is none', () => {
    expect(archiveFaults(copy('a-2a'), 'a-2a')).toEqual([]);
    expect(archiveFaults(copy('ua-1'), 'ua-1')).toEqual([]);
    expect(archiveFaults(copy('1.7'), 'a-2a').join('\n')).toMatch(/6\.6\.4[\s\S]*6\.2\.3/);
    expect(archiveFaults(copy('1.7'), 'ua-1').join('\n')).toContain('part 1');
  });

  it.each<[string, 'a-2a' | 'ua-1', (pdf: PdfObjects) => unknown]>([
    ['6.1.2', 'a-2a', pdf => Object.assign(pdf, { header: '%PDF-2.0\n' })],
    ['6.1.3', 'a-2a', pdf => delete trailer(pdf)['/ID']],
    ['6.1.3', 'a-2a', pdf => Object.assign(trailer(pdf), { '/Encrypt': {} })],
    ['6.5.2', 'a-2a', pdf => Object.assign(catalog(pdf), { '/AA': {} })],
    ['6.7.2.2', 'a-2a', pdf => delete catalog(pdf)['/MarkInfo']],
    ['6.7.3.3', 'ua-1', pdf => delete catalog(pdf)['/StructTreeRoot']],
    ['6.7.4', 'ua-1', pdf => delete catalog(pdf)['/Lang']],
    ['6.6.2', 'ua-1', pdf => delete catalog(pdf)['/Metadata']],
    ['6.2.3', 'a-2a', pdf => delete catalog(pdf)['/OutputIntents']],
    ['6.8', 'a-2a', pdf => Object.assign(catalog(pdf), { '/Names': { '/EmbeddedFiles': {} } })],
    ['6.11', 'a-2a', pdf => Object.assign(catalog(pdf), { '/Requirements': [] })],
    ['7.1', 'ua-1', pdf => delete catalog(pdf)['/ViewerPreferences']],
    [
      '7.18.3',
      'ua-1',
      pdf => Object.assign(first(pdf, '/Type', '/Page'), { '/Annots': [{}], '/Tabs': '/R' }),
    ],
    [
      '6.3.2',
      'a-2a',
      pdf => Object.assign(first(pdf, '/Type', '/Page'), { '/Annots': [{ '/Subtype': '/Link' }] }),
    ],
    [
      '6.3.1',
      'a-2a',
      pdf => Object.assign(first(pdf, '/Type', '/Page'), { '/Annots': [{ '/Subtype': '/Movie' }] }),
    ],
    [
      '6.2.8',
      'a-2a',
      pdf =>
        Object.assign(pdf.objects, {
          'obj:900 0 R': { value: { '/Subtype': '/Image', '/Interpolate': true } },
        }),
    ],
    [
      '6.5.1',
      'a-2a',
      pdf =>
        Object.assign(pdf.objects, { 'obj:900 0 R': { value: { '/Type': '/Action', '/S': '/JavaScript' } } }),
    ],
    [
      '6.1.7.2',
      'a-2a',
      pdf => Object.assign(pdf.objects, { 'obj:900 0 R': { stream: { dict: { '/Filter': '/LZWDecode' } } } }),
    ],
    ['6.2.11.4.1', 'a-2a', pdf => without(pdf, '/FontFile2', '/FontFile3')],
    ['6.2.11.7.2', 'ua-1', pdf => without(pdf, '/ToUnicode')],
  ])('finds what breaks %s in %s', (clause, standard, change) => {
    const pdf = copy(standard);
    change(pdf);
    expect(archiveFaults(pdf, standard).filter(fault => fault.includes(clause))).not.toEqual([]);
  });
});
