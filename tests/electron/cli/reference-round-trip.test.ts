import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { TextWriter, Uint8ArrayReader, ZipReader } from '@zip.js/zip.js';
import Database from 'better-sqlite3';
import { afterAll, describe, expect, it } from 'vitest';
import { ourColumns } from '../../../db/import/columns.ts';
import { contentHash, referenceTables } from '../../helpers/content-hash.ts';
import { readRfc4180 } from '../../helpers/rfc-4180.ts';
import { answer } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string) => join(folder, name);

const known: Record<string, string> = {
  maker: 'Quillon Toys',
  series: 'Weir',
  casting: 'Osmerry',
  release_name: 'Osmerry',
  release_year: '1969',
  colour: 'Ember',
  body_finish: 'candy lacquer',
  base_paint: 'front quarter',
  rear_end: 'bar lamp',
  roof: 'black',
  interior: 'ivory',
  glazing: 'clear',
  wheels: 'dished disc',
  accessory: 'sail',
  country: 'England',
  rarity: 'scarce',
  maker_country: 'England',
  maker_notes: 'Of the mill lane',
  series_first_year: '1966',
  series_last_year: '1974',
  series_notes: 'Candy colours',
  body_type: 'coupe',
  first_year: '1968',
  length_mm: '71.5',
  materials: 'zinc alloy',
  markings: 'QUILLON',
  assembly: 'two rivets',
  bearings: 'captive',
  casting_notes: 'Two lines,\nand a "quote"',
  changed_part: 'wider base',
  release_notes: 'From May on',
  factory_specification: 'One coat over bare metal',
  variation_notes: 'Seen once; twice perhaps',
  base_words: 'front third, up to the axle',
  wheel_sizes: '9.4 mm front, 10.1 mm rear',
  parts: 'axles: 1.10 mm, thread M1.2; post and rivet closure: drill 1.6 mm',
  look_at: 'axles: straight; roof: cracks at the post',
  feature_values: 'roof: white; wheels: spoked, solid',
  swatch: '#aa3311',
};
const tables = { tables: [...referenceTables, 'casting_part', 'casting_feature', 'colour'] };
/** Where a part stands among those of its casting follows from the order in which they are named. */
const without = ['casting_part.position'];
const contentOf = (name: string) => contentHash(at(name), { ...tables, without });

describe('all that a reference says', () => {
  it('goes out in the columns that import reads, and comes back', async () => {
    // A description says of several columns what they say one by one.
    const read = ourColumns.reference.map(({ name }) => name).filter(name => name !== 'description');
    expect(Object.keys(known).toSorted()).toEqual(read.toSorted());
    const list = JSON.stringify(known);
    writeFileSync(at('list.jsonl'), `${list}\n`);
    await answer(['import', at('list.jsonl'), '--as', 'reference', '--collection', at('shelf')]);
    for (const format of ['csv', 'xlsx']) {
      const file = at(`out.${format}`);
      await answer(['export', 'reference', '--collection', at('shelf'), '--out', file]);
      const taken = await answer(['import', file, '--as', 'reference', '--collection', at(format)]);
      expect([format, taken.accepted, taken.rejected]).toEqual([format, 1, []]);
      expect(contentOf(format), format).toBe(contentOf('shelf'));
    }
    const [heads = [], row = []] = readRfc4180(readFileSync(at('out.csv'), 'utf8'));
    expect(Object.fromEntries(heads.map((head, i) => [head, row[i]]))).toEqual(known);
  });

  it('has no columns for what nothing is known of', async () => {
    const { casting, maker, series } = known;
    writeFileSync(at('bare.csv'), `maker,series,casting\n${maker},${series},${casting}\n`);
    await answer(['import', at('bare.csv'), '--as', 'reference', '--collection', at('bare')]);
    await answer(['export', 'reference', '--collection', at('bare'), '--out', at('bare-out.csv')]);
    expect(readRfc4180(readFileSync(at('bare-out.csv'), 'utf8'))[0]).toHaveLength(16);
  });

  it('parts a piece in two nowhere: what would is a comma', async () => {
    writeFileSync(
      at('pieces.jsonl'),
      `${JSON.stringify({ ...known, parts: 'axles: 1.10 mm', look_at: 'axles: straight' })}\n`,
    );
    await answer(['import', at('pieces.jsonl'), '--as', 'reference', '--collection', at('pieces')]);
    const db = new Database(join(at('pieces'), 'collection.sqlite'));
    db.prepare("UPDATE casting_part SET detail = '1.10 mm; thread M1.2' || char(10) || 'brass: none'").run();
    db.close();
    await answer(['export', 'reference', '--collection', at('pieces'), '--out', at('pieces.csv')]);
    const [heads = [], row = []] = readRfc4180(readFileSync(at('pieces.csv'), 'utf8'));
    expect(row[heads.indexOf('parts')]).toBe('axles: 1.10 mm, thread M1.2, brass: none');
  });

  it('is passed on to a friend without notes', async () => {
    await answer(['share', '--collection', at('shelf'), '--out', at('friend.zip')]);
    const bytes = readFileSync(at('friend.zip'));
    const entries = await new ZipReader(new Uint8ArrayReader(new Uint8Array(bytes))).getEntries();
    const texts = await Promise.all(
      entries.map(entry => ('getData' in entry ? entry.getData!(new TextWriter()) : '')),
    );
    expect(texts.join('\n')).toContain('Osmerry');
    expect(texts.join('\n')).not.toContain('Of the mill lane');
  });
});
