import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { layout } from '../../db/file/layout.ts';
import { readWorkedOut, writeWorkedOut } from '../../db/file/worked-out.ts';

const sections = new Map([
  ['figures', Buffer.from([1, 2, 3, 10, 0, 255])],
  ['home', Buffer.from('{"cars":5}\n')],
  ['none', Buffer.alloc(0)],
]);

const written = () => {
  const dir = mkdtempSync(join(tmpdir(), 'playworn-worked-out-'));
  onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
  writeWorkedOut(dir, 'key', sections);
  return { dir, path: layout(dir).workedOut };
};

describe('what was worked out, in a file beside the collection', () => {
  it('comes back as it was', () => {
    const { dir } = written();
    const read = readWorkedOut(dir, 'key');
    expect([...read!].map(([name, bytes]) => [name, Buffer.from(bytes)])).toEqual([...sections]);
  });

  it.each<[string, (bytes: Buffer) => Uint8Array | string]>([
    ['is cut short', bytes => bytes.subarray(0, -1)],
    ['is cut short in what says what it is', bytes => bytes.subarray(0, 20)],
    ['goes on', bytes => Buffer.concat([bytes, Buffer.from('x')])],
    ['is empty', () => ''],
    ['has a wrong byte', bytes => bytes.map((byte, i) => (i === bytes.length - 3 ? byte ^ 1 : byte))],
    ['is something else', () => 'a note of somebody’s\nand more'],
    ['says something else', () => 'null\n'],
  ])('is removed where the file %s', (_, damaged) => {
    const { dir, path } = written();
    writeFileSync(path, damaged(readFileSync(path)));
    expect(readWorkedOut(dir, 'key')).toBeNull();
    expect(existsSync(path)).toBe(false);
  });

  it('is removed where it is of something else', () => {
    const { dir, path } = written();
    expect(readWorkedOut(dir, 'another key')).toBeNull();
    expect(existsSync(path)).toBe(false);
    expect(readWorkedOut(dir, 'another key')).toBeNull();
  });

  it('is not there where it cannot be written, also not as it was before', () => {
    const { dir, path } = written();
    mkdirSync(`${path}.part`);
    writeWorkedOut(dir, 'key', sections);
    expect(readWorkedOut(dir, 'key')).toBeNull();
  });
});
