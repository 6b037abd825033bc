/**
 * A checker of bags, written from the text of RFC 8493 (The BagIt File Packaging Format, version 1.0) and of nothing
 * of ours. It names the section of each fault.
 */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';

const filesUnder = (dir: string, below = ''): string[] =>
  readdirSync(join(dir, below), { withFileTypes: true }).flatMap(entry => {
    const name = below === '' ? entry.name : `${below}/${entry.name}`;
    return entry.isDirectory() ? filesUnder(dir, name) : [name];
  });

/** 2.1.3: LF, CR and the percent sign of a name are percent-encoded, nothing else. */
const decoded = (path: string): string =>
  path.replace(/%0A|%0D|%25/gi, code => String.fromCharCode(Number.parseInt(code.slice(1), 16)));

/** The faults of a folder as a bag, in words, each with its section; none where it is complete and valid. */
export const bagFaults = (dir: string): string[] => {
  const faults: string[] = [];
  const all = filesUnder(dir);
  const payload = new Set(all.filter(name => name.startsWith('data/')));
  const text = (name: string): string =>
    new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(join(dir, name)));
  if (!existsSync(join(dir, 'data')) || !statSync(join(dir, 'data')).isDirectory())
    faults.push('2.1.2: no payload directory');
  if (!all.includes('bagit.txt')) return [...faults, '2.1.1: no bagit.txt'];
  if (!/^BagIt-Version: 1\.0\r?\nTag-File-Character-Encoding: UTF-8\r?\n?$/.test(text('bagit.txt')))
    faults.push('2.1.1: bagit.txt is not its two lines');
  const manifests = all.filter(name => /^(?:tag)?manifest-[a-z0-9]+\.txt$/.test(name));
  const isTag = (name: string) => name.startsWith('tag');
  if (!manifests.some(name => !isTag(name))) faults.push('2.1.3: no payload manifest');
  for (const manifest of manifests) {
    const algorithm = /-([a-z0-9]+)\.txt$/.exec(manifest)?.[1] ?? '';
    if (!['md5', 'sha1', 'sha256', 'sha512'].includes(algorithm)) {
      faults.push(`2.4: ${manifest} is of an algorithm that is not named`);
      continue;
    }
    const listed = new Set<string>();
    for (const line of text(manifest).split(/\r\n|\n|\r/)) {
      if (line === '') continue;
      const [, sum, path] = /^([0-9a-fA-F]+)[ \t]+(.+)$/.exec(line) ?? [];
      if (sum === undefined || path === undefined) {
        faults.push(`2.1.3: "${line}" in ${manifest} is no checksum and path`);
        continue;
      }
      const name = decoded(path);
      if (
        name.startsWith('/') ||
        name.startsWith('~') ||
        name.split('/').some(part => part === '..' || part === '.')
      )
        faults.push(`2.1.3: ${manifest} leads to "${path}"`);
      else if (listed.has(name)) faults.push(`2.1.3: ${manifest} lists ${name} twice`);
      else if (isTag(manifest) ? payload.has(name) || /^tagmanifest-/.test(name) : !name.startsWith('data/'))
        faults.push(`${isTag(manifest) ? '2.2.1' : '2.1.3'}: ${manifest} must not list ${name}`);
      else if (!all.includes(name)) faults.push(`3: ${name} of ${manifest} is missing`);
      else if (
        createHash(algorithm)
          .update(readFileSync(join(dir, name)))
          .digest('hex') !== sum.toLowerCase()
      )
        faults.push(`3: ${name} does not have its checksum in ${manifest}`);
      listed.add(name);
    }
    // 2.1.3: since version 1.0 every payload manifest lists every payload file.
    if (!isTag(manifest))
      for (const name of payload) if (!listed.has(name)) faults.push(`3: ${name} is not in ${manifest}`);
    // 2.2.1: a tag manifest that is there covers the payload manifests.
    if (isTag(manifest))
      for (const name of manifests)
        if (!isTag(name) && !listed.has(name)) faults.push(`2.2.1: ${manifest} does not list ${name}`);
  }
  if (all.includes('bag-info.txt')) {
    const info = text('bag-info.txt');
    for (const line of info.split(/\r\n|\n|\r/))
      if (line !== '' && !/^[^:\s][^:]*: .*|^[ \t]+\S/.test(line))
        faults.push(`2.2.2: "${line}" of bag-info.txt has no label`);
    const oxum = /^Payload-Oxum: (\d+)\.(\d+)$/m.exec(info);
    const octets = [...payload].reduce((sum, name) => sum + statSync(join(dir, name)).size, 0);
    if (oxum && (Number(oxum[1]) !== octets || Number(oxum[2]) !== payload.size))
      faults.push(`2.2.2: Payload-Oxum is ${oxum[1]}.${oxum[2]}, and the payload ${octets}.${payload.size}`);
  }
  if (all.includes('fetch.txt')) faults.push('2.2.3: files are still to be fetched');
  return faults;
};
