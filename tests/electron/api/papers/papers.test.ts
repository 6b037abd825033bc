import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { PaperKind } from '../../../../electron/api/inputs.ts';
import { type Api, newCollectionService, refusalOf, resultOf } from '../../../helpers/api.ts';
import { readRfc4180 } from '../../../helpers/rfc-4180.ts';

const csv = (text: string, name: string) => new File([text], name);

const reference =
  'maker,series,casting,release_name,release_year,colour,base_paint\n' +
  'Quillon Toys,Weir,Osmerry,Osmerry,1969,Ember,none\nQuillon Toys,Weir,Osmerry,Osmerry,1969,Tidepool,full\nQuillon Toys,Weir,Skiffle,Skiffle,1970,Ember,none\n';
const sales = [
  'sold_on,price,currency,casting,colour,grade,finish_state,source',
  ...Array.from(
    { length: 12 },
    (_, i) => `2025-0${(i % 9) + 1}-03,${30 + i * 3},USD,Osmerry,Ember,${5 + (i % 4)},original,fair`,
  ),
].join('\n');
const cars =
  'inventory_number,casting,colour,grade,finish_state,location,notes\n' +
  'Q-1,Osmerry,Ember,7,original,"Cabinet, left","#set text(red) *bold* 😀 שלום"\nQ-2,Osmerry,Ember,4,restored,Drawer 9,\nQ-3,,,,original,,unknown thing\n';

/** A collection of three cars that can be valued, as an owner would make it by files. */
const shelf = async () => {
  const service = await newCollectionService();
  const { api } = service;
  await resultOf(await api.imports.run({ file: csv(reference, 'reference.csv'), as: 'reference' }));
  await resultOf(await api.imports.run({ file: csv(sales, 'sales.csv'), as: 'sales' }));
  const lot = {
    name: 'Loft find',
    boughtOn: '2026-01-10',
    seller: 'E. Tarrow',
    currency: 'USD',
    costs: [{ kind: 'price' as const, minor: 6000 }],
  };
  await resultOf(await api.imports.run({ file: csv(cars, 'cars.csv'), as: 'lot', lot }));
  const rows = await api.cars.list({});
  const idOf = (number: string) => rows.find(row => row.inventoryNumber === number)!.id;
  return { ...service, idOf, lotId: rows[0]!.lotId! };
};

const ownLine = {
  id: 'own-1',
  name: 'Brush out the wheel arches',
  hands: { low: 1, likely: 2, high: 3 },
};

type Wanted = Omit<Parameters<Api['papers']['make']>[0], 'kind'>;

/** A file that was made, its bytes, and a PDF's text on one line. */
const fetched = async <T extends { token: string }>(api: Api, made: T) => {
  const file = await api.reports.file({ token: made.token });
  const bytes = Buffer.from(await file.arrayBuffer());
  const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const path = join(folder, 'paper.pdf');
  writeFileSync(path, bytes);
  const read = (program: string, ...args: string[]) =>
    execFileSync(program, [...args, path, '-'], { encoding: 'utf8' });
  const text =
    bytes.subarray(0, 4).toString() === '%PDF' ? read('pdftotext', '-layout').replaceAll(/\s+/g, ' ') : '';
  return { ...made, bytes, text };
};

const paper = async (api: Api, kind: PaperKind, wanted: Wanted = {}) =>
  fetched(api, await resultOf(await api.papers.make({ kind, ...wanted })));

const report = async (api: Api, wanted: Omit<Parameters<Api['reports']['make']>[0], 'format'>) =>
  fetched(api, await resultOf(await api.reports.make({ format: 'pdf', ...wanted })));

describe('papers', () => {
  it('say of every car what its state is, and are the same bytes twice', async () => {
    const { api, idOf, lotId } = await shelf();
    const carId = idOf('Q-2');
    for (const kind of ['dossier', 'sale-sheet', 'bench-sheet'] as const) {
      const made = await paper(api, kind, { carId });
      expect(made.text).toContain('C4, restored');
      expect(made.text).toContain('Osmerry');
      expect((await paper(api, kind, { carId })).bytes.equals(made.bytes)).toBe(true);
      expect(made.bytes.toString('latin1')).toContain('/MarkInfo');
    }
    expect((await report(api, { lotId })).text).toContain('Lot report');
    for (const [kind, wanted] of [
      ['worksheet', {}],
      ['bid', { lotId }],
    ] as const) {
      const { text } = await paper(api, kind, wanted);
      if (kind === 'bid') expect(text).toMatch(/Q-2 Osmerry Ember C4, restored/);
      for (const number of ['Q-1', 'Q-2', 'Q-3']) expect(text).toContain(number);
      expect(text).toContain('C4, restored');
    }
  });

  it('say honestly to a buyer what the car is, on one page, without price paid, value or place', async () => {
    const { api, idOf } = await shelf();
    const { text, pages } = await paper(api, 'sale-sheet', { carId: idOf('Q-2') });
    expect(pages).toBe(1);
    expect(text).toContain('Restored: this is not the factory finish.');
    expect(text).not.toMatch(/Drawer|USD|Tarrow|20\.00/);
    const whole = await paper(api, 'sale-sheet', { carId: idOf('Q-1') });
    expect(whole.text).toContain('This car has its factory finish.');
  });

  it('a collection report has the total of Home, to the cent, with its range', async () => {
    const { api } = await shelf();
    const { asFound } = (await api.collection.home()).totals;
    const { text } = await report(api, {});
    const amount = (minor: number) => (minor / 100).toLocaleString('en-US', { minimumFractionDigits: 2 });
    expect(asFound.mid).toBeGreaterThan(1000);
    expect(text).toContain(`USD ${amount(asFound.mid)}`);
    expect(text).toContain(`80 % range ${amount(asFound.low)} to ${amount(asFound.high)}`);
    expect(text).toMatch(/By place.*Cabinet, left \(1\).*Drawer 9 \(1\).*No place recorded \(1\)/);
    expect(text).toContain('Value by grade and finish state');
    const bare = await report(api, { withoutPlaces: true });
    expect(bare.text).not.toMatch(/Cabinet|Drawer|By place/);
    expect(bare.text).toContain(`USD ${amount(asFound.mid)}`);
  });

  it('print the owner’s words as they are, never as instructions', async () => {
    const { api, idOf } = await shelf();
    const { text } = await paper(api, 'dossier', { carId: idOf('Q-1') });
    expect(text).toContain('#set text(red) *bold*');
  });

  it('leave out values and places where that is asked for', async () => {
    const { api, idOf } = await shelf();
    const carId = idOf('Q-1');
    const whole = await paper(api, 'dossier', { carId });
    expect(whole.text).toContain('Cabinet, left');
    expect(whole.text).toMatch(/As found USD \d/);
    const bare = await paper(api, 'dossier', { carId, withoutValues: true, withoutPlaces: true });
    expect(bare.text).not.toMatch(/Cabinet|USD|worth|Cost/);
    expect(bare.text).toContain('Ember');
  });

  it('compare two condition checks for a claim', async () => {
    const { api, idOf } = await shelf();
    const carId = idOf('Q-1');
    expect(await refusalOf(resultOf(await api.papers.make({ kind: 'claim', carId })))).toMatchObject({
      message: expect.stringContaining('Record its condition as it is now'),
    });
    await api.cars.saveCheck({ carId, checkedOn: '2026-02-01', grade: 7, notes: '', parts: [] });
    const alone = (await paper(api, 'claim', { carId })).text;
    expect(alone).toContain('Condition before not recorded: there is no condition check from before that');
    expect(alone).toContain('Value before not known');
    expect(alone).toMatch(/Value after USD \d/);
    expect(alone).toContain('Loss of value not known: nothing tells its condition before');
    expect(alone).not.toContain('Both values');
    expect(alone).not.toContain('What happened');
    expect(alone).toContain('No event is recorded for this car');
    await api.cars.saveCheck({
      carId,
      checkedOn: '2026-03-01',
      grade: 4,
      notes: 'Fell from the shelf',
      parts: [],
    });
    const { text } = await paper(api, 'claim', { carId });
    expect(text).toContain('Fell from the shelf');
    expect(text).toMatch(/Condition before C7 \(checked Feb 1, 2026\)/);
    expect(text).toMatch(/Condition after C4 Value before/);
    expect(text).toMatch(/Loss of value USD \d+\.\d\d, the difference/);
  });

  it('take the grade before from the event where the car was never checked before it', async () => {
    const { api, idOf } = await shelf();
    const carId = idOf('Q-1');
    const { grade } = await api.cars.get({ id: carId });
    expect(grade).not.toBeNull();
    await api.cars.recordEvent({
      carId,
      happenedOn: '2026-03-01',
      cause: 'dropped',
      note: 'off the shelf',
      grade: 2,
    });
    const { text } = await paper(api, 'claim', { carId });
    expect(text).toContain(`Condition before C${grade} (as noted with the event)`);
    expect(text).toContain('Condition after C2');
    expect(text).toMatch(/Loss of value USD \d+\.\d\d, the difference/);
    // A check after that, when it was cleaned, is not what happened.
    await api.cars.saveCheck({ carId, checkedOn: '2026-03-10', grade: 3, notes: 'Cleaned', parts: [] });
    const later = (await paper(api, 'claim', { carId })).text;
    expect(later).toMatch(/What happened dropped: off the shelf Happened on Mar 1, 2026/);
    expect(later).toContain('Condition after C2');
    const lossIn = (said: string) => /Loss of value USD (\d+\.\d\d)/.exec(said)?.[1];
    expect(lossIn(later)).toBe(lossIn(text));
  });

  it('have on the bench sheet the bench’s own list of what to look at before closing', async () => {
    const { api, idOf } = await shelf();
    const carId = idOf('Q-1');
    const { text } = await paper(api, 'bench-sheet', { carId });
    await api.bench.add({ cars: [{ carId }] });
    const [job] = await api.bench.list();
    expect(job!.lookList.length).toBeGreaterThan(6);
    for (const item of job!.lookList) expect(text).toContain(item.text);
  });

  it('have on the bench sheet the steps of the kind of work that is settled: a season’s care, then the job’s', async () => {
    const { api, idOf } = await shelf();
    const carId = idOf('Q-1');
    const holds = async (kind: 'conserve' | 'restore' | 'donor') => {
      const { text } = await paper(api, 'bench-sheet', { carId });
      expect(text.includes('Dust and wash the outside'), kind).toBe(kind === 'conserve');
      expect(text.includes('First coat, light'), kind).toBe(kind === 'restore');
      expect(text.includes('Bag the parts'), kind).toBe(kind === 'donor');
      // Care opens nothing, so that nothing is looked at before closing, and no spray is warned of.
      expect(text.includes('Before it is closed'), kind).toBe(kind === 'restore');
      expect(text.includes('Two-pack (2K) paint'), kind).toBe(kind === 'restore');
    };
    await holds('restore');
    const season = {
      name: 'Winter',
      currency: 'USD',
      cars: [{ carId, kind: 'conserve' as const }],
    };
    await api.work.saveSeason(season);
    await holds('conserve');
    // A plan of care that its owner changed is what the sheet says.
    await api.plans.save({ carId, kind: 'conserve', wishes: { added: [ownLine] } });
    expect((await paper(api, 'bench-sheet', { carId })).text).toContain('Brush out the wheel arches');
    // What its notes name is warned of as well.
    await api.plans.save({ carId, kind: 'conserve', wishes: {}, notes: 'perhaps vinegar on the hubs' });
    expect((await paper(api, 'bench-sheet', { carId })).text).toContain('Do not put zinc alloy in acid');
    await api.bench.add({ cars: [{ carId, kind: 'donor' }] });
    await holds('donor');
  });

  it('list for a fair what the collection lacks, in a pocket', async () => {
    const { api } = await shelf();
    const { text, bytes } = await paper(api, 'want-list', { grade: 6 });
    expect(text).toContain('Osmerry (1969), Tidepool');
    expect(text).toContain('Skiffle (1970), any');
    expect(text).not.toContain('(1969), Ember');
    expect(bytes.toString('latin1')).toMatch(/\/MediaBox \[0 0 297\.6\d* 419\.5\d*\]/);
    expect((await paper(api, 'want-list', { withoutValues: true })).text).not.toMatch(/\d\d\.\d\d/);
    const castingIds = (await api.reference.castings()).map(({ id }) => id);
    const { id: setId } = await api.castingSets.create({ name: 'Harbour set', castingIds });
    const ofSet = await paper(api, 'want-list', { setId });
    expect(ofSet.text).toContain('Want list: Harbour set');
    expect(ofSet.text).toContain('Skiffle (1970), any');
    expect(ofSet.text).not.toContain('Tidepool');
    await expect(paper(api, 'want-list', { setId: 999 })).rejects.toThrow('There is no set 999');
  });

  it('keep the year’s books, as a document and as a table', async () => {
    const { api, idOf } = await shelf();
    await api.cars.dispose({
      carId: idOf('Q-2'),
      soldOn: '2026-02-20',
      proceeds: 5000,
      fees: 500,
      currency: 'USD',
    });
    const { text } = await paper(api, 'ledger', { from: '2026-01-01', to: '2026-12-31' });
    expect(text).toMatch(/Jan 10, 2026 Loft find, from E\. Tarrow USD 60\.00/);
    expect(text).toMatch(/Feb 20, 2026 Q-2, restored USD 45\.00 45\.00/);
    expect(text).toContain('not tax advice');
    const table = await paper(api, 'ledger', { from: '2026-01-01', to: '2026-12-31', format: 'csv' });
    const rows = readRfc4180(table.bytes.toString('utf8'));
    expect(rows.slice(1).map(row => row.slice(0, 4))).toEqual([
      ['2026-01-10', 'bought', 'Loft find, from E. Tarrow', '60.00'],
      ['2026-02-20', 'sold', 'Q-2, restored', '45.00'],
    ]);
    expect((await paper(api, 'ledger', { from: '2020-01-01' })).text).toContain('Nothing in this year.');
  });

  it('are refused with what is missing', async () => {
    const { api } = await newCollectionService();
    const refusal = (kind: PaperKind, wanted: Wanted = {}) =>
      api.papers.make({ kind, ...wanted }).then(stream => refusalOf(resultOf(stream)));
    expect((await refusal('dossier')).message).toContain('about one car: say which');
    expect((await refusal('bid')).message).toContain('about one lot');
    expect((await refusal('worksheet')).message).toContain('There is no car');
    expect((await refusal('dossier', { carId: 99 })).message).toContain('There is no car 99');
    expect((await paper(api, 'want-list')).text).toContain('has every variation that the reference knows');
  });
});
