import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { DefinedPaper, DefinedReport } from '../../../../electron/api/reports/definitions.ts';
import { addReference, newCollectionService, refusalOf, resultOf } from '../../../helpers/api.ts';
import { pdfText } from '../../../reports/read-pdf.ts';

const shelf = async () => {
  const service = await newCollectionService();
  const { api } = service;
  const { variations } = await addReference(api);
  const { id: lotId } = await api.lots.create({ name: 'Loft', currency: 'USD', costs: [] });
  await api.cars.create({
    lotId,
    cars: [
      { inventoryNumber: 'Q-1', variationId: variations.emberTwin, grade: 8, location: 'Drawer 3' },
      { inventoryNumber: 'Q-2', variationId: variations.mossTwin, grade: 4 },
    ],
  });
  return service;
};

describe('named reports', () => {
  it('are made again by what was chosen, and noted with total and SHA-256 where they are saved', async () => {
    const { api } = await shelf();
    const wanted = { format: 'pdf' as const, title: 'For the insurer', withoutPlaces: true };
    await api.reports.saveDefinition({ name: 'Insurance', wanted: { ...wanted, title: 'An older title' } });
    await api.reports.saveDefinition({ name: 'insurance', wanted });
    const [definition, ...others] = await api.reports.definitions();
    expect(others).toEqual([]);
    expect(definition).toMatchObject({ name: 'insurance', wanted });
    expect(definition!.wanted).not.toHaveProperty('on');
    const made = await resultOf(await api.reports.make(definition!.wanted as DefinedReport));
    const bytes = Buffer.from(await (await api.reports.file({ token: made.token })).arrayBuffer());
    expect(await api.reports.kept()).toEqual([]);
    await api.reports.keep({ token: made.token, definition: 'insurance' });
    await api.reports.keep({ token: made.token, definition: 'insurance' });
    const { asFound } = (await api.collection.home()).totals;
    expect(await api.reports.kept()).toMatchObject([
      {
        name: 'insurance',
        definitionId: definition!.id,
        effectiveOn: '2026-03-14',
        total: asFound.mid,
        currency: 'USD',
        cars: 2,
        bytes: bytes.byteLength,
        sha256: createHash('sha256').update(bytes).digest('hex'),
      },
    ]);
    await api.reports.removeDefinition({ id: definition!.id });
    expect(await api.reports.definitions()).toEqual([]);
    expect(await api.reports.kept()).toMatchObject([{ name: 'insurance', definitionId: null }]);
    await api.collection.undo();
    expect(await api.reports.definitions()).toHaveLength(1);
  });

  it('are of every kind of paper; a ledger is that of the year in which it is made', async () => {
    const { api, clock } = await shelf();
    const wanted = { kind: 'ledger', yearBegins: '04-06' } as const;
    await api.reports.saveDefinition({ name: 'Books', wanted });
    await api.reports.saveDefinition({ name: 'Fair', wanted: { kind: 'want-list', withoutValues: true } });
    const found = await api.reports.definitions();
    expect(found).toMatchObject([
      { name: 'Books', wanted },
      { name: 'Fair', wanted: { kind: 'want-list', withoutValues: true, grade: 6 } },
    ]);
    const subtitle = async () => {
      const made = await resultOf(await api.papers.make(found[0]!.wanted as DefinedPaper));
      const bytes = Buffer.from(await (await api.reports.file({ token: made.token })).arrayBuffer());
      return { made, text: (await pdfText(bytes)).replaceAll(/\s+/g, ' ') };
    };
    const { made, text } = await subtitle();
    expect(text).toContain('Apr 6, 2025 to Apr 5, 2026');
    clock.now = new Date(2026, 3, 6, 12);
    expect((await subtitle()).text).toContain('Apr 6, 2026 to Apr 5, 2027');
    await api.reports.keep({ token: made.token, definition: 'Books' });
    expect(await api.reports.kept()).toMatchObject([
      { name: 'Books', kind: 'ledger', total: null, cars: null, definitionId: found[0]!.id },
    ]);
  });

  it('want a name, and note nothing of a list or of labels', async () => {
    const { api } = await shelf();
    expect(
      await refusalOf(api.reports.saveDefinition({ name: '  ', wanted: { format: 'csv' } })),
    ).toMatchObject({ message: expect.stringMatching(/name/i) });
    const made = await resultOf(await api.papers.labels({}));
    await api.reports.keep({ token: made.token });
    expect(await api.reports.kept()).toEqual([]);
    expect(await refusalOf(api.reports.keep({ token: 'gone' }))).toMatchObject({
      message: expect.stringContaining('no longer available'),
    });
  });
});
