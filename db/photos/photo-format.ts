import { CollectionError } from '../errors.ts';
import type { PhotoFormat } from './photo-files.ts';

const refused = (kind: 'photo-empty' | 'photo-drawing' | 'photo-unknown') => new CollectionError({ kind });

/**
 * The format of a picture by its first bytes, whatever its name says. Throws CollectionError 'photo-refused'
 * with the reason for SVG and everything else that is not kept.
 * Source: the signatures of each format's own specification; ISO/IEC 14496-12 for the `ftyp` brands.
 */
export const photoFormat = (bytes: Uint8Array): PhotoFormat => {
  const head = Buffer.from(bytes.buffer, bytes.byteOffset, Math.min(bytes.byteLength, 512));
  const ascii = head.toString('latin1');
  if (bytes.byteLength === 0) throw refused('photo-empty');
  if (ascii.startsWith('\xff\xd8\xff')) return 'jpeg';
  if (ascii.startsWith('\x89PNG\r\n\x1a\n')) return 'png';
  if (ascii.startsWith('RIFF') && ascii.slice(8, 12) === 'WEBP') return 'webp';
  if (ascii.startsWith('II*\0') || ascii.startsWith('MM\0*')) return 'tiff';
  if (ascii.startsWith('GIF8')) return 'gif';
  if (ascii.slice(4, 8) === 'ftyp') {
    const brands = ascii.slice(8, Math.max(16, head.readUInt32BE(0)));
    if (/avif|avis/.test(brands)) return 'avif';
    if (/hei[cxms]|hev[cx]|mif1|msf1/.test(brands)) return 'heic';
  }
  if (/<svg|<\?xml|<!DOCTYPE/i.test(head.toString('utf8'))) throw refused('photo-drawing');
  throw refused('photo-unknown');
};
