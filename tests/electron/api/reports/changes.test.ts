import Excel from 'exceljs';
import { describe, expect, it } from 'vitest';
import { type Api, addReference, newCollectionService, resultOf } from '../../../helpers/api.ts';
import { pdfText } from '../../../reports/read-pdf.ts';

type Wanted = Partial<Parameters<Api['reports']['make']>[0]>;

const made = async (api: Api, wanted: Wanted) => {
  const result = await resultOf(
    await api.reports.make({ format: 'pdf', withPhotographs: false, withChanges: true, ...wanted }),
  );
  const bytes = Buffer.from(await (await api.reports.file({ token: result.token })).arrayBuffer());
  return { token: result.token, bytes };
};
const textOf = async (api: Api, wanted: Wanted = {}) =>
  (await pdfText((await made(api, wanted)).bytes)).replaceAll(/\s+/g, ' ');

/** Five cars of which a report was saved on 14 March, and what became of them by 1 June. */
const shelf = async () => {
  const service = await newCollectionService();
  const { api, clock } = service;
  const { variations } = await addReference(api);
  const { id: lotId } = await api.lots.create({ name: 'Loft', currency: 'USD', costs: [] });
  const { ids } = await api.cars.create({
    lotId,
    cars: ['Q-1', 'Q-2', 'Q-3', 'Q-4', 'Q-5'].map(inventoryNumber => ({
      inventoryNumber,
      variationId: variations.emberTwin,
      grade: 8,
    })),
  });
  const idOf = (number: string) => ids[Number(number.slice(2)) - 1]!;
  const first = await made(api, {});
  expect((await pdfText(first.bytes)).replaceAll(/\s+/g, ' ')).toContain(
    'No report of these cars was saved on an earlier day',
  );
  await api.reports.keep({ token: first.token });
  const again = await made(api, {});
  expect(again.bytes.equals(first.bytes), 'saving a report does not change that of the same day').toBe(true);
  clock.now = new Date(2026, 5, 1, 12);
  return { ...service, lotId, idOf, variations };
};

describe('what changed since the last report', () => {
  it('is nothing where nothing changed', async () => {
    const { api } = await shelf();
    expect(await textOf(api)).toMatch(
      /Compared with .Collection report. of 14 March 2026, which had 5 cars and came to USD [\d,.]+\. No car is new, gone or in another condition\./,
    );
  });

  it('names each car that is new, gone, sold, renumbered or in another condition', async () => {
    const { api, lotId, idOf, variations } = await shelf();
    await api.cars.create({
      lotId,
      cars: [{ inventoryNumber: 'N-9', variationId: variations.mossTwin, grade: 4 }],
    });
    await api.cars.dispose({ carId: idOf('Q-1'), soldOn: '2026-05-01', proceeds: 4000, currency: 'USD' });
    await api.cars.remove({ ids: [idOf('Q-2')] });
    await api.cars.update({ changes: [{ id: idOf('Q-3'), patch: { grade: 3, finishState: 'touched up' } }] });
    await api.cars.update({ changes: [{ id: idOf('Q-4'), patch: { inventoryNumber: 'R-4' } }] });
    const text = await textOf(api);
    expect(text).toMatch(/New \(1\) Number Car Condition USD N-9 .*?C4 [\d.]+ Gone/);
    expect(text).toMatch(/Gone \(2\) .* Q-1 .*? C8 sold Q-2 .*? C8 removed Changed/);
    // The sale of Q-1 is a sale record, too, by which are worth otherwise.
    expect(text).toMatch(/Changed \(3\) .*Q-3 .*?C8; [\d.]+ C3, touched up; [\d.]+/);
    expect(text).toMatch(/Q-5 Dovetail, Ember [\d.]+ [\d.]+ R-4 .*?number Q-4; [\d.]+ number R-4; [\d.]+/);
    const workbook = new Excel.Workbook();
    const { bytes } = await made(api, { format: 'xlsx' });
    await workbook.xlsx.load(bytes as unknown as ArrayBuffer);
    const rows = workbook
      .getWorksheet('Changes')!
      .getSheetValues()
      .map(row => (row as string[] | undefined)?.slice(1, 3).join(' '));
    expect(rows).toEqual(
      expect.arrayContaining(['new N-9', 'gone Q-1', 'gone Q-2', 'changed Q-3', 'changed R-4']),
    );
  });

  it('compares only reports of the same cars told in the same way, and tells no value in a copy without', async () => {
    const { api, clock, lotId, idOf } = await shelf();
    expect(await textOf(api, { lotId })).toContain('No report of these cars was saved');
    expect(await textOf(api, { withoutValues: true })).toContain('No report of these cars was saved');
    const bare = await made(api, { withoutValues: true });
    await api.reports.keep({ token: bare.token });
    expect((await api.reports.kept())[0]).toMatchObject({ total: null, currency: null, cars: 5 });
    await api.cars.update({ changes: [{ id: idOf('Q-3'), patch: { grade: 3 } }] });
    const since = await textOf(api, { withoutValues: true });
    // Of the same day: not compared with itself.
    expect(since).toContain('No report of these cars was saved');
    clock.now = new Date(2026, 6, 1, 12);
    const later = await textOf(api, { withoutValues: true });
    expect(later).toMatch(/of 1 June 2026, which had 5 cars\. Changed \(1\) .*Q-3 .*?C8 C3/);
    expect(later).not.toMatch(/USD|\d\.\d\d/);
  });
});
