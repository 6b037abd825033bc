import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { makeArchive } from '../../../db/archive/make-archive.ts';
import { bagFaults } from '../../helpers/bag-checker.ts';
import { at, newCollection, temporaryFolder } from '../../helpers/collections.ts';

const bag = async () => {
  const dir = temporaryFolder();
  const collection = await newCollection();
  const out = join(dir, 'bag');
  await makeArchive(collection, {
    out,
    at,
    report: { fileName: 'report 50%.pdf', bytes: Buffer.from('%PDF-1.7 report') },
  });
  return { dir, out };
};

it('an archive is a bag by the text of RFC 8493', async () => {
  const { out } = await bag();
  expect(bagFaults(out)).toEqual([]);
});

it('the checker names what is wrong with a bag, and the section that it breaks', async () => {
  const { dir, out } = await bag();
  const lines = (name: string, change: (text: string) => string) => (broken: string) =>
    writeFileSync(join(broken, name), change(readFileSync(join(broken, name), 'utf8')));
  const database = (broken: string) =>
    join(broken, 'data', readdirSync(join(broken, 'data')).find(name => name.endsWith('.pdf'))!);
  const faults: [RegExp, (broken: string) => void][] = [
    [/^2\.1\.1/, broken => rmSync(join(broken, 'bagit.txt'))],
    [/^2\.1\.1/, lines('bagit.txt', text => text.replace('1.0', '0.97'))],
    [/^3: .* checksum/, broken => writeFileSync(database(broken), 'other')],
    [/^3: .* missing/, broken => rmSync(database(broken))],
    [/^3: data\/stray\.txt is not in/, broken => writeFileSync(join(broken, 'data', 'stray.txt'), 'x')],
    [/^2\.1\.3: .* no checksum/, lines('manifest-sha256.txt', text => `${text}nothing\n`)],
    [/^2\.1\.3: .* leads to/, lines('manifest-sha256.txt', text => `${text}ab  data/../../x\n`)],
    [/^2\.1\.3: .* twice/, lines('manifest-sha512.txt', text => text + text.split('\n')[0])],
    [/^2\.1\.3: .* must not list/, lines('manifest-sha512.txt', text => `${text}ab  bagit.txt\n`)],
    [
      /^2\.2\.1: .* does not list/,
      lines('tagmanifest-sha256.txt', text => text.replace(/.*manifest-sha512\.txt\n/, '')),
    ],
    [/^2\.2\.2: Payload-Oxum/, lines('bag-info.txt', text => text.replace(/Oxum: \d+/, 'Oxum: 1'))],
    [/^2\.2\.3/, broken => writeFileSync(join(broken, 'fetch.txt'), '')],
  ];
  for (const [i, [said, breaks]] of faults.entries()) {
    const broken = join(dir, `broken-${i}`);
    mkdirSync(broken);
    cpSync(out, broken, { recursive: true });
    breaks(broken);
    expect(bagFaults(broken), String(said)).toContainEqual(expect.stringMatching(said));
  }
});
