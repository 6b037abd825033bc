import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { contentHash, referenceTables } from '../../helpers/content-hash.ts';
import { readRfc4180 } from '../../helpers/rfc-4180.ts';
import { listOfJobs } from './list-of-jobs.ts';
import { answer } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string) => join(folder, name);

/** Each list, in the order in which a new collection takes them: what a row names comes before it. */
const lists = {
  reference: [
    'maker,series,casting,release_name,release_year,colour,body_finish,base_paint,rear_end,roof,interior,glazing,wheels,accessory,country,rarity',
    'Quillon Toys,Weir,Osmerry,Osmerry,1969,Ember,candy lacquer,none,bar lamp,plain,ivory,clear,dished disc,,England,common',
    'Quillon Toys,Weir,Osmerry,Osmerry,1969,Ember,candy lacquer,full,bar lamp,plain,ivory,clear,dished disc,,England,scarce',
    '=Quillon Toys,Weir,Skiffle,"Skiffle ""Two""",1970,Tidepool,enamel,none,,,white,clear,slotted plate,sail,England,',
  ],
  words: ['column,text,field,meaning', '*,lovely,grade,C8', 'Base,"plain, bare",base_paint,none'],
  lots: [
    'lot,bought_on,seller,currency,costs,price_from,notes',
    'Loft,2024-05-04,"Anna; Ltd",USD,"price 40.00\ncarriage 12.50: by van; 2 boxes: ""big""",,"two\nlines"',
    'One by one,,,JPY,,cars,=1+1',
  ],
  cars: [
    'inventory_number,casting,release_name,release_year,colour,base_paint,wheels,grade,finish_state,status,location,lot,bought_on,seller,price_paid,price_paid_currency,notes,cost_currency,acquired_on',
    'A-1,Osmerry,Osmerry,1969,Ember,full,,7.5,original,kept,Case 1,Loft,,,,,"""quoted"", two\nlines",,',
    'A-2,Skiffle,"Skiffle ""Two""",1970,Tidepool,none,,3,restored,donor,,Loft,,,,,,,',
    'A-3,Osmerry,,,lt grn,,repro,,original,kept,,One by one,2024-06-07,Béla,1200,JPY,=2+2,,',
    'A-4,,,,green?,,,,stripped,kept,,,,,,,😀 שלום,,',
  ],
  sales: [
    'sold_on,price,currency,casting,colour,base_paint,grade,finish_state,missing_parts,reproduction_parts,source,reference,reliability_percent,excluded,excluded_why,notes',
    '2025-03-04,1250.50,USD,Osmerry,Ember,full,7.5,original,,wheels,auction,"lot 7, day 2",60,,,',
    '2025-04-05,12000,JPY,Osmerry,Ember,none,6,restored,roof; interior,,fair,,,yes,"a ""friend""; cheap",two',
    '2025-05-06,9.90,EUR,Skiffle,"gold, maybe",,,original,,,listing,=1+1,,,,',
  ],
  expenses: [
    'inventory_number,spent_on,what,amount,currency',
    'A-1,2025-01-02,=1+1 polish,1234,JPY',
    'A-1,2025-01-02,=1+1 polish,1234,JPY',
    'A-2,2025-01-03,"felts, two",0.45,USD',
  ],
  disposals: [
    'inventory_number,sold_on,sold_for,fees,currency,buyer,venue,notes',
    'A-2,2025-06-07,31.00,3.10,USD,"E. ""Ned"" Tarrow",fair,"two\nlines"',
  ],
  decisions: [
    'inventory_number,decided_on,choice,recommended,overruled,reason',
    'A-1,2025-01-02,leave,restore,scarce; original finish,a gift',
  ],
  jobs: listOfJobs,
} as const;
type List = keyof typeof lists;
const names = Object.keys(lists) as List[];

/** What the list of cars says besides: worked out from the others on the day, or read by tests of its own. */
const workedOut =
  /^(?:currency|(?:as_found|restored|original_finish|restoration_cost)_(?:low|mid|high)|basis_of_value|effective_date|own_figures|evidence|cost|disclosure|documented_on|not_understood)$/;

/** What goes by the lists, whole; of cars what is written is compared by their list. */
const carried = {
  tables: [
    ...referenceTables,
    ...['sale_record', 'lot', 'lot_cost', 'expense', 'disposal', 'decision', 'word', 'car'],
    ...['job', 'job_step', 'job_time', 'job_material', 'job_part', 'finished_work'],
  ],
  without: ['car', 'sale_record'].flatMap(table =>
    ['as_written', 'unread', 'heard'].map(column => `${table}.${column}`),
  ),
};

const takeIn = (collection: string, list: List, file: string) =>
  list === 'words'
    ? answer(['words', file, '--collection', at(collection)])
    : answer(['import', file, '--as', list === 'cars' ? 'lot' : list, '--collection', at(collection)]);

const out = async (collection: string, list: List, format = 'csv') => {
  const file = at(`${collection}-${list}.${format}`);
  await answer(['export', list, '--collection', at(collection), '--out', file]);
  return file;
};

/** The rows of a list, in an order of their own and without what is worked out. */
const contentOf = async (collection: string, list: List) => {
  const [heads = [], ...rows] = readRfc4180(readFileSync(await out(collection, list), 'utf8'));
  return rows
    .map(row =>
      JSON.stringify(
        Object.fromEntries(
          heads.flatMap((head, i) => (list === 'cars' && workedOut.test(head) ? [] : [[head, row[i]]])),
        ),
      ),
    )
    .sort();
};

describe('every list that goes out', () => {
  beforeAll(async () => {
    for (const list of names) {
      writeFileSync(at(`${list}.csv`), lists[list].join('\r\n'));
      await takeIn('shelf', list, at(`${list}.csv`));
    }
  });

  it.each(['csv', 'xlsx', 'jsonl'])('fills a new collection with the same content (%s)', async format => {
    const again = `again-${format}`;
    for (const list of names) {
      const taken = await takeIn(again, list, await out('shelf', list, format));
      if (list === 'words') continue;
      const columns = taken.rejected.map(({ column }: { column: string }) => column);
      // A sale of the owner's own comes with the list of disposals.
      expect([list, columns]).toEqual([list, list === 'sales' ? ['own_sale'] : []]);
    }
    for (const list of names) {
      const before = await contentOf('shelf', list);
      // The sale of a car is a sale record, and cars without a lot are in that of their file.
      const more = list === 'sales' || list === 'lots' ? 1 : 0;
      expect(before, list).toHaveLength(lists[list].length - 1 + more);
      expect(await contentOf(again, list), list).toEqual(before);
    }
    expect(contentHash(at(again), carried)).toBe(contentHash(at('shelf'), carried));
  });

  it('says of a list of cars whose lots are not there what to take in first', async () => {
    const { notes } = await takeIn('alone', 'cars', await out('shelf', 'cars'));
    expect(notes.join('\n')).toMatch(/no lot “Loft”, “One by one”.*Import the list of lots first/);
    expect(contentHash(at('alone'), carried)).not.toBe(contentHash(at('shelf'), carried));
  });
});
