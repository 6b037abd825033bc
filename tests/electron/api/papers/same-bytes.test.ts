import { describe, expect, it } from 'vitest';
import { paperKinds } from '../../../../electron/api/inputs.ts';
import { addReference, newCollectionService, resultOf } from '../../../helpers/api.ts';

type Options = Parameters<typeof newCollectionService>[0];

/** The same cars in another folder, entered at another hour; every kind of paper and list of them, by what it is. */
const madeOf = async (options: Options) => {
  const { api } = await newCollectionService(options);
  const { variations } = await addReference(api);
  const { id: lotId } = await api.lots.create({
    name: 'Loft find',
    boughtOn: '2026-01-02',
    currency: 'USD',
    costs: [{ kind: 'price', minor: 12_345 }],
  });
  const { ids } = await api.cars.create({
    lotId,
    cars: [
      { variationId: variations.emberTwin, grade: 7 },
      { variationId: variations.mossTwin, grade: 4 },
    ],
  });
  const carId = ids[0]!;
  for (const [checkedOn, grade] of [
    ['2026-02-01', 7],
    ['2026-03-01', 5],
  ] as const)
    await api.cars.saveCheck({ carId, checkedOn, grade, notes: '', parts: [] });
  const made = new Map<string, Buffer>();
  const take = async (name: string, stream: Parameters<typeof resultOf<{ token: string }>>[0]) => {
    const { token } = await resultOf(stream);
    made.set(name, Buffer.from(await (await api.reports.file({ token })).arrayBuffer()));
  };
  for (const kind of paperKinds) await take(`${kind}.pdf`, await api.papers.make({ kind, carId, lotId }));
  for (const format of ['pdf', 'xlsx', 'csv'] as const)
    await take(`collection.${format}`, await api.reports.make({ format }));
  for (const format of ['xlsx', 'csv', 'jsonl'] as const) {
    await take(`ledger.${format}`, await api.papers.make({ kind: 'ledger', format }));
    await take(`cars.${format}`, await api.exports.make({ list: 'cars', format }));
  }
  await take('labels.pdf', await api.papers.labels({}));
  return made;
};

describe('papers and lists', () => {
  it('are the same bytes of the same data and day, whatever the hour and the folder', async () => {
    const one = await madeOf({ hour: 8 });
    const other = await madeOf({ hour: 21 });
    expect(one.size).toBe(paperKinds.length + 10);
    for (const [name, bytes] of one) {
      expect(bytes.equals(other.get(name)!), name).toBe(true);
      if (name.endsWith('.pdf')) expect(bytes.toString('latin1'), name).toContain('D:20260314000000');
    }
  });

  it('are dated from outside where that is asked for', async () => {
    const made = await madeOf({ stampedAt: '2020-02-02T02:02:02.000Z' });
    for (const [name, bytes] of made) {
      if (!name.endsWith('.pdf')) continue;
      const text = bytes.toString('latin1');
      expect(text, name).toContain('D:20200202020202');
      expect(text, name).not.toContain('D:2026');
    }
  });
});
