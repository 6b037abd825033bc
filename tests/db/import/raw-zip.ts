import { crc32, deflateRawSync } from 'node:zlib';

/** A ZIP archive of these files; `announce` changes what its directory says of a file's size. */
export const zipOf = (
  files: Record<string, string>,
  { announce = (_name: string, size: number) => size, packed = true } = {},
): Uint8Array<ArrayBuffer> => {
  const locals: Buffer[] = [];
  const directory: Buffer[] = [];
  let offset = 0;
  for (const [name, text] of Object.entries(files)) {
    const plain = Buffer.from(text);
    const body = packed ? deflateRawSync(plain) : plain;
    const size = announce(name, plain.length);
    const shared = Buffer.alloc(26);
    shared.writeUInt16LE(20, 0);
    shared.writeUInt16LE(packed ? 8 : 0, 4);
    shared.writeUInt32LE(crc32(plain), 10);
    shared.writeUInt32LE(body.length, 14);
    shared.writeUInt32LE(size, 18);
    shared.writeUInt16LE(Buffer.byteLength(name), 22);
    locals.push(Buffer.from('PK\x03\x04'), shared, Buffer.from(name), body);
    const place = Buffer.alloc(14);
    place.writeUInt32LE(offset, 10);
    directory.push(Buffer.from('PK\x01\x02'), Buffer.from([20, 0]), shared, place, Buffer.from(name));
    offset += 30 + Buffer.byteLength(name) + body.length;
  }
  const listed = Buffer.concat(directory);
  const end = Buffer.alloc(22);
  end.write('PK\x05\x06', 0, 'latin1');
  end.writeUInt16LE(Object.keys(files).length, 8);
  end.writeUInt16LE(Object.keys(files).length, 10);
  end.writeUInt32LE(listed.length, 12);
  end.writeUInt32LE(offset, 16);
  return new Uint8Array(Buffer.concat([...locals, listed, end]));
};

const names = (sheets: string[]) =>
  sheets.map((name, i) => `<x:sheet name="${name}" sheetId="${i + 1}" r:id="r${i + 1}"/>`).join('');

/** A workbook of these sheets as XML, with its parts in an order of its own. */
export const bookOf = (
  sheets: Record<string, string>,
  { properties = '', texts = '', styles = '' } = {},
): Record<string, string> => ({
  ...Object.fromEntries(
    Object.values(sheets).map((xml, i) => [
      `xl/pages/p${i + 1}.xml`,
      `<?xml version="1.0"?><worksheet><sheetData>${xml}</sheetData></worksheet>`,
    ]),
  ),
  'xl/sharedStrings.xml': `<sst>${texts}</sst>`,
  'xl/styles.xml': `<styleSheet>${styles}</styleSheet>`,
  'xl/workbook.xml': `<x:workbook xmlns:x="a" xmlns:r="b">${properties}<x:sheets>${names(Object.keys(sheets))}</x:sheets></x:workbook>`,
  'xl/_rels/workbook.xml.rels': `<Relationships>${Object.keys(sheets)
    .map((_, i) => `<Relationship Id="r${i + 1}" Target="${i % 2 ? '/xl/' : ''}pages/p${i + 1}.xml"/>`)
    .join('')}</Relationships>`,
});
