import { describe, expect, it } from 'vitest';
import { tableHashes } from '../../../../db/backup/manifest.ts';
import { defaultAssumptions } from '../../../../valuation/default-assumptions.ts';
import { disclosureText } from '../../../../valuation/wording/cars/disclosure-text.ts';
import { addReference, newCollectionService, refusalOf, resultOf } from '../../../helpers/api.ts';
import { pdfText } from '../../../reports/read-pdf.ts';

const benched = async () => {
  const service = await newCollectionService();
  const { api } = service;
  const { variations } = await addReference(api);
  const { ids } = await api.cars.create({
    lotId: null,
    cars: [{ inventoryNumber: 'W-1', variationId: variations.emberTwin, grade: 3, status: 'on the bench' }],
  });
  const [carId = 0] = ids;
  return { ...service, carId };
};

const done = (carId: number) => ({
  carId,
  kind: 'restore' as const,
  finishedOn: '2026-03-10',
  finishState: 'restored' as const,
  grade: 8.5,
  parts: [
    { part: 'wheels' as const, grade: 9, originality: 'reproduction' as const },
    { part: 'axles' as const, grade: 8, originality: 'original' as const },
  ],
  colour: 'Teal',
  closure: 'screw' as const,
  axles: 'straightened',
  leftAsWas: 'scratches in the cover, too deep',
  minutes: 260,
  costs: [{ what: 'Paint and stripper', minor: 740, currency: 'USD' }],
});

describe('finishing the work on a car', () => {
  it('writes check, finish, colour, departures and cost as one action, which one undo takes back wholly', async () => {
    const { api, session, carId } = await benched();
    await api.decisions.savePlan({ carId, targetGrade: 9, hours: { low: 2, likely: 4, high: 6 } });
    const hashes = () => {
      const { change: _, change_row: __, ...rest } = tableHashes(session.collection!.read.sqlite);
      return rest;
    };
    const before = hashes();
    await api.cars.finishWork(done(carId));
    const page = await api.cars.get({ id: carId });
    expect(page).toMatchObject({
      finishState: 'restored',
      grade: 8.5,
      status: 'kept',
      wornColour: 'Teal',
      checks: [{ checkedOn: '2026-03-10', grade: 8.5 }],
      expenses: [{ what: 'Paint and stripper', minor: 740 }],
      work: [
        {
          finishBefore: 'original',
          gradeBefore: 3,
          fidelity: 'with deviations',
          departures: ['another colour', 'reproduction wheels', 'visible post closure'],
          minutes: 260,
        },
      ],
      plan: { standard: true },
    });
    const text = disclosureText(page.disclosure, 'en-GB');
    expect(text).toMatch(/^Restored: this is not the factory finish\. It wears Teal; it was made in /);
    expect(text).toContain('another colour, reproduction wheels, visible post closure');
    expect(text).toContain('Left as it was: scratches in the cover, too deep.');
    await api.collection.undo();
    expect(hashes()).toEqual(before);
    expect((await api.cars.get({ id: carId })).status).toBe('on the bench');
    await api.collection.redo();
    expect((await api.cars.get({ id: carId })).wornColour).toBe('Teal');
  });

  it('is told by list, search, CSV and PDF alike', async () => {
    const { api, carId } = await benched();
    await api.cars.finishWork(done(carId));
    expect((await api.cars.list({}))[0]).toMatchObject({ wornColour: 'Teal', finishState: 'restored' });
    const found = await api.collection.search({ text: 'teal' });
    expect(JSON.stringify(found)).toContain('W-1');
    const made = async (format: 'csv' | 'pdf') => {
      const { token } = await resultOf(await api.reports.make({ format, withPhotographs: false }));
      return Buffer.from(await (await api.reports.file({ token })).arrayBuffer());
    };
    const pdf = (await pdfText(await made('pdf'))).replace(/\s+/g, ' ');
    expect(pdf).toContain('Restored: this is not the factory finish.');
    expect(pdf).toContain('Teal, was Ember');
    expect(pdf).toContain('C8.5, restored');
    expect(pdf).toContain('visible post closure');
    const csv = (await made('csv')).toString('utf8');
    expect(csv).toContain('Teal');
    expect(csv).toContain('Restored: this is not the factory finish.');
    expect(csv).toContain('visible post closure');
  });

  it('leaves a newer state alone when older work is written down later', async () => {
    const { api, carId } = await benched();
    await api.cars.finishWork(done(carId));
    await api.cars.finishWork({ ...done(carId), finishedOn: '2025-01-01', grade: 5, colour: 'Rust' });
    expect(await api.cars.get({ id: carId })).toMatchObject({ grade: 8.5, wornColour: 'Teal' });
  });

  it('says that a car was opened on the bench, though nobody says how it is closed, and after a later cleaning too', async () => {
    const { api, carId } = await benched();
    await api.bench.add({ cars: [{ carId }] });
    const [job] = await api.bench.list();
    const drilled = job!.steps.find(({ step }) => step === 'drill-posts')!;
    await api.bench.setStep({ stepId: drilled.id, state: 'done' });
    await api.cars.finishWork({
      ...done(carId),
      colour: 'Ember',
      closure: '',
      parts: [],
      who: 'E. Tarrow',
      jobId: job!.id,
    });
    const said = async () => disclosureText((await api.cars.get({ id: carId })).disclosure, 'en-GB');
    const restored = await said();
    for (const text of ['visible post closure', 'on 10 March 2026 by E. Tarrow', 'It wears Ember;'])
      expect(restored).toContain(text);
    const later = { finishedOn: '2026-05-02', closure: 'not opened' as const, colour: '', parts: [] };
    await api.cars.finishWork({ ...done(carId), ...later, kind: 'conserve', who: 'M. Oake' });
    const cleaned = await said();
    for (const text of [
      'visible post closure',
      'by E. Tarrow',
      'on 2 May 2026 by M. Oake',
      'It wears Ember;',
    ])
      expect(cleaned).toContain(text);
  });

  it('counts what departs in the value of the car as it stands, also after a later cleaning', async () => {
    const { api, carId } = await benched();
    const valued = async () => (await api.cars.get({ id: carId })).worths.asFound!.mid;
    const plain = { ...done(carId), parts: [], colour: 'Ember', closure: 'as made' as const };
    await api.cars.finishWork(plain);
    const toSpecification = await valued();
    await api.collection.undo();
    await api.cars.finishWork({ ...plain, colour: 'Teal', closure: 'screw' });
    const departing = await valued();
    const { deviationLoss } = defaultAssumptions('USD');
    const left = (1 - deviationLoss['another colour']!) * (1 - deviationLoss['visible post closure']!);
    expect(departing / toSpecification).toBeCloseTo(left, 2);
    await api.cars.finishWork({
      ...plain,
      kind: 'conserve',
      finishedOn: '2026-05-02',
      colour: '',
      closure: 'not opened',
    });
    expect(await valued()).toBe(departing);
  });

  it('refuses to call a painted car original, and a sold one finished', async () => {
    const { api, carId } = await benched();
    expect(
      (await refusalOf(api.cars.finishWork({ ...done(carId), finishState: 'original' }))).message,
    ).toMatch(/no longer has its original finish/);
    await api.cars.dispose({ carId, soldOn: '2026-03-12', proceeds: 100, currency: 'USD' });
    expect((await refusalOf(api.cars.finishWork(done(carId)))).message).toMatch(/has been sold/);
  });
});
