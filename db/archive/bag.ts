import { createHash } from 'node:crypto';
import { createReadStream, existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { syncFile, syncFolder } from '../file/files.ts';

/**
 * Bags after RFC 8493 ("The BagIt File Packaging Format", version 1.0): the payload in `data/`, and beside it
 * manifests by which every file of it can be checked on any machine, by any program that knows the format.
 */

/**
 * The hash functions of our manifests, by the names that RFC 8493, section 2.4, gives them in a
 * manifest's file name.
 */
export const bagAlgorithms = ['sha256', 'sha512'] as const;
export type BagAlgorithm = (typeof bagAlgorithms)[number];

/** Hexadecimal hashes of one file, and its length in bytes. */
export type FileHashes = Record<BagAlgorithm, string> & { bytes: number };

/** Hashes a file piece by piece, however large. */
export const hashStream = async (pieces: AsyncIterable<Uint8Array>): Promise<FileHashes> => {
  const hashes = bagAlgorithms.map(algorithm => createHash(algorithm));
  let bytes = 0;
  for await (const piece of pieces) {
    for (const hash of hashes) hash.update(piece);
    bytes += piece.byteLength;
  }
  const [sha256, sha512] = hashes.map(hash => hash.digest('hex'));
  return { sha256: sha256!, sha512: sha512!, bytes };
};

/**
 * The files below a folder by their names with `/`, in the order of those names; links are not
 * followed and not listed.
 */
export const filesBelow = (folder: string): string[] => {
  const found: string[] = [];
  const walk = (inside: string): void => {
    for (const entry of readdirSync(join(folder, inside), { withFileTypes: true })) {
      const name = inside === '' ? entry.name : `${inside}/${entry.name}`;
      if (entry.isDirectory()) walk(name);
      else if (entry.isFile()) found.push(name);
    }
  };
  walk('');
  return found.sort();
};

// RFC 8493, section 2.1.3: only these three are percent-encoded in a manifest.
const encoded = (name: string): string =>
  name.replace(/[%\r\n]/g, character => encodeURIComponent(character));
const decoded = (name: string): string => name.replace(/%(25|0a|0d)/gi, whole => decodeURIComponent(whole));

/** A manifest's text: a line for each file, its hash and its name. */
export const manifestLines = (
  files: Iterable<readonly [string, FileHashes]>,
  algorithm: BagAlgorithm,
): string => [...files].map(([name, hashes]) => `${hashes[algorithm]}  ${encoded(name)}\n`).join('');

/** The names and hashes of a manifest; null where a line is not one. Hashes in lower case. */
export const readManifestLines = (text: string): Map<string, string> | null => {
  const listed = new Map<string, string>();
  for (const line of text.replace(/^\ufeff/, '').split(/\r\n|\n|\r/)) {
    if (line.trim() === '') continue;
    const [, hash, name] = /^([0-9a-fA-F]+)[ \t]+\*?(.+)$/.exec(line) ?? [];
    if (hash === undefined || name === undefined) return null;
    listed.set(decoded(name).replace(/^\.\//, ''), hash.toLowerCase());
  }
  return listed;
};

const declaration = 'BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n';

/** True for the text of a `bagit.txt` of a version that is read here. */
export const isDeclaration = (text: string): boolean =>
  /^BagIt-Version: (0\.9[0-9]|1\.\d+)\r?\nTag-File-Character-Encoding: UTF-8\r?\n?$/i.test(
    text.replace(/^\ufeff/, ''),
  );

/**
 * Makes a bag of a folder that holds its payload in `data/`: writes `bagit.txt`, `bag-info.txt` (with the
 * payload's bytes and number of files added), the manifests of the payload and those of the tag files. All of
 * it is on the disk when it returns.
 */
export const sealBag = async (
  folder: string,
  info: Record<string, string>,
  onFile: (done: number, total: number) => void = () => {},
): Promise<void> => {
  const payload = new Map<string, FileHashes>();
  const names = filesBelow(folder).filter(name => name.startsWith('data/'));
  for (const name of names) {
    payload.set(name, await hashStream(createReadStream(join(folder, name))));
    onFile(payload.size, names.length);
  }
  const bytes = [...payload.values()].reduce((sum, file) => sum + file.bytes, 0);
  const tags: Record<string, string> = {
    'bagit.txt': declaration,
    'bag-info.txt': Object.entries({ ...info, 'Payload-Oxum': `${bytes}.${payload.size}` })
      .map(([label, value]) => `${label}: ${value.replace(/\s+/g, ' ')}\n`)
      .join(''),
  };
  for (const algorithm of bagAlgorithms)
    tags[`manifest-${algorithm}.txt`] = manifestLines(payload, algorithm);
  const write = (name: string, text: string): void => {
    writeFileSync(join(folder, name), text);
    syncFile(join(folder, name));
  };
  const tagHashes = new Map<string, FileHashes>();
  for (const [name, text] of Object.entries(tags)) {
    write(name, text);
    tagHashes.set(name, await hashStream(createReadStream(join(folder, name))));
  }
  for (const algorithm of bagAlgorithms)
    write(`tagmanifest-${algorithm}.txt`, manifestLines(tagHashes, algorithm));
  syncFolder(folder);
};

/** Files of a bag, wherever they lie: in a folder or in an archive. */
export interface BagSource {
  /** Every file, by its name within the bag. */
  names: ReadonlySet<string>;
  /** The bytes of one; throws where they cannot be read. */
  open: (name: string) => AsyncIterable<Uint8Array>;
}

/** A bag in a folder. */
export const folderSource = (folder: string): BagSource => ({
  names: new Set(existsSync(folder) && statSync(folder).isDirectory() ? filesBelow(folder) : []),
  open: name => createReadStream(join(folder, name)),
});

/** What is wrong with one file of a bag. */
export interface BagFinding {
  file: string;
  /**
   * `missing`: listed and not there; `altered`: not the bytes that were listed; `unreadable`: its bytes
   * could not be read; `unlisted`: there, and in no manifest; `invalid`: a tag file that is not what the
   * format asks for.
   */
  kind: 'missing' | 'altered' | 'unreadable' | 'unlisted' | 'invalid';
}

/** What a check of a bag found, and the payload that is just as it was listed. */
export interface BagCheck {
  findings: BagFinding[];
  /** Names below `data/` whose bytes are as every manifest says. */
  sound: Set<string>;
}

/** A small file of a bag as text; null where it is not there. */
export const textOf = async (source: BagSource, name: string): Promise<string | null> => {
  if (!source.names.has(name)) return null;
  const pieces: Uint8Array[] = [];
  for await (const piece of source.open(name)) pieces.push(piece);
  return Buffer.concat(pieces).toString('utf8');
};

const manifestName = /^(tag)?manifest-(sha256|sha512)\.txt$/;

/** What each manifest says of each file; a manifest that cannot be read counts as a finding. */
const expectations = async (source: BagSource, findings: BagFinding[]) => {
  const expected = new Map<string, Partial<Record<BagAlgorithm, string>>>();
  const manifests = [...source.names].filter(name => manifestName.test(name)).sort();
  for (const manifest of manifests) {
    const text = await textOf(source, manifest).catch(() => null);
    const listed = text === null ? null : readManifestLines(text);
    if (!listed) findings.push({ file: manifest, kind: text === null ? 'unreadable' : 'invalid' });
    const algorithm = manifestName.exec(manifest)![2] as BagAlgorithm;
    for (const [name, hash] of listed ?? []) expected.set(name, { ...expected.get(name), [algorithm]: hash });
  }
  if (!manifests.some(name => name.startsWith('manifest-')))
    findings.push({ file: 'manifest-sha256.txt', kind: 'missing' });
  return expected;
};

/**
 * Compares every file of a bag with its manifests (RFC 8493, section 3: complete and valid). A file that
 * cannot be read is a finding like any other: the rest is checked all the same.
 */
export const checkBag = async (
  source: BagSource,
  onFile: (done: number, total: number) => void = () => {},
): Promise<BagCheck> => {
  const findings: BagFinding[] = [];
  const sound = new Set<string>();
  const declared = await textOf(source, 'bagit.txt').catch(() => '');
  if (declared === null) findings.push({ file: 'bagit.txt', kind: 'missing' });
  else if (!isDeclaration(declared)) findings.push({ file: 'bagit.txt', kind: 'invalid' });
  const expected = await expectations(source, findings);
  const names = [...expected.keys()].sort();
  for (const [i, name] of names.entries()) {
    onFile(i, names.length);
    if (!source.names.has(name)) {
      findings.push({ file: name, kind: 'missing' });
      continue;
    }
    const wanted = expected.get(name)!;
    const found = await hashStream(source.open(name)).catch(() => null);
    if (!found) findings.push({ file: name, kind: 'unreadable' });
    else if (bagAlgorithms.some(algorithm => wanted[algorithm] && wanted[algorithm] !== found[algorithm])) {
      if (!findings.some(finding => finding.file === name)) findings.push({ file: name, kind: 'altered' });
    } else if (name.startsWith('data/')) sound.add(name);
  }
  for (const name of source.names)
    if (name.startsWith('data/') && !expected.has(name)) findings.push({ file: name, kind: 'unlisted' });
  return { findings: findings.sort((a, b) => (a.file < b.file ? -1 : 1)), sound };
};
