import { describe, expect, it } from 'vitest';
import { tableHashes } from '../../../../db/backup/manifest.ts';
import { addReference, newCollectionService, refusalOf } from '../../../helpers/api.ts';
import { picture } from '../../../helpers/pictures/pictures.ts';

const benched = async () => {
  const service = await newCollectionService();
  const { api, clock } = service;
  const { variations } = await addReference(api);
  const { ids } = await api.cars.create({
    lotId: null,
    cars: [
      { inventoryNumber: 'B-1', variationId: variations.emberTwin, grade: 3 },
      { inventoryNumber: 'B-2', variationId: variations.mossTwin, grade: 4 },
      { inventoryNumber: 'B-3', variationId: variations.mossTwin, grade: 2 },
    ],
  });
  const [one = 0, two = 0, donor = 0] = ids;
  await api.bench.add({ cars: [{ carId: one }, { carId: two }] });
  const jobs = () => api.bench.list();
  const jobOf = async (carId: number) => (await jobs()).find(job => job.carId === carId)!;
  const stepOf = async (carId: number, step: string) =>
    (await jobOf(carId)).steps.find(s => s.step === step)!;
  const later = (minutes: number) => {
    clock.now = new Date(clock.now.getTime() + minutes * 60_000);
  };
  return { ...service, one, two, donor, jobOf, stepOf, later };
};

describe('the bench', () => {
  it('takes cars with the steps of their plans, once each', async () => {
    const { api, one, jobOf } = await benched();
    const job = await jobOf(one);
    expect(job).toMatchObject({ inventoryNumber: 'B-1', state: 'waiting', kind: 'restore' });
    expect(job.steps.map(({ step }) => step)).toEqual(
      (await api.work.plan({ carId: one })).lines.map(({ id }) => id),
    );
    expect((await api.cars.get({ id: one })).status).toBe('on the bench');
    expect((await refusalOf(api.bench.add({ cars: [{ carId: one }] }))).message).toMatch(
      /on the bench already/,
    );
  });

  it('adds up sessions, shares the time of several cars, and counts no night', async () => {
    const { api, one, two, stepOf, later } = await benched();
    const [a, b] = [await stepOf(one, 'smooth'), await stepOf(two, 'smooth')];
    await api.bench.start({ stepIds: [a.id] });
    expect((await refusalOf(api.bench.start({ stepIds: [a.id] }))).message).toMatch(/runs already/);
    later(30);
    await api.bench.stop({ stepIds: [a.id] });
    later(120);
    await api.bench.start({ stepIds: [a.id, b.id] });
    later(30);
    await api.bench.stop({ stepIds: [a.id, b.id] });
    expect((await stepOf(one, 'smooth')).seconds).toBe(45 * 60);
    expect((await stepOf(two, 'smooth')).seconds).toBe(15 * 60);
    await api.bench.start({ stepIds: [a.id] });
    later(10 * 60);
    await api.bench.stop({ stepIds: [a.id] });
    expect(await stepOf(one, 'smooth')).toMatchObject({ seconds: 45 * 60, uncounted: 1, runningSince: null });
  });

  it('ticks a step off for several cars at once: one action, the time shared', async () => {
    const { api, session, one, two, stepOf, jobOf, later } = await benched();
    const [a, b] = [await stepOf(one, 'smooth'), await stepOf(two, 'smooth')];
    const hashes = () => {
      const { change: _, change_row: __, ...rest } = tableHashes(session.collection!.read.sqlite);
      return rest;
    };
    await api.bench.start({ stepIds: [a.id, b.id] });
    later(50);
    const before = hashes();
    await api.bench.setStep({ stepId: a.id, also: [b.id, a.id], state: 'done', note: 'fine paper' });
    expect(await stepOf(one, 'smooth')).toMatchObject({ state: 'done', seconds: 1500, note: 'fine paper' });
    expect(await stepOf(two, 'smooth')).toMatchObject({ state: 'done', seconds: 1500, note: '' });
    expect([(await jobOf(one)).state, (await jobOf(two)).state]).toEqual(['open', 'open']);
    expect((await api.collection.history({}))[0]?.label).toContain('on 2 cars');
    await api.collection.undo();
    expect(hashes()).toEqual(before);
    await api.bench.enterTime({ stepId: a.id, also: [b.id], minutes: 30 });
    await api.collection.undo();
    expect(hashes()).toEqual(before);
  });

  it('goes on counting for the others, in full, when one car leaves a shared step', async () => {
    const { api, one, two, stepOf, jobOf, later } = await benched();
    const [a, b] = [await stepOf(one, 'smooth'), await stepOf(two, 'smooth')];
    await api.bench.start({ stepIds: [a.id, b.id] });
    later(20);
    await api.bench.setStep({ stepId: a.id, state: 'done' });
    expect(await stepOf(two, 'smooth')).toMatchObject({ seconds: 600, sharedBy: 1 });
    expect((await stepOf(two, 'smooth')).runningSince).not.toBeNull();
    later(30);
    await api.bench.stop({ stepIds: [b.id] });
    expect((await stepOf(one, 'smooth')).seconds).toBe(600);
    expect((await stepOf(two, 'smooth')).seconds).toBe(600 + 1800);
    // So it is where a job is paused, and where one is finished while its clock is shared.
    const [c, d] = [await stepOf(one, 'degrease'), await stepOf(two, 'degrease')];
    await api.bench.start({ stepIds: [c.id, d.id] });
    later(10);
    await api.bench.change({ id: (await jobOf(two)).id, state: 'paused' });
    expect((await stepOf(one, 'degrease')).runningSince).not.toBeNull();
    expect((await stepOf(two, 'degrease')).runningSince).toBeNull();
    await api.bench.start({ stepIds: [d.id] });
    await api.bench.stop({ stepIds: [c.id, d.id] });
    await api.bench.start({ stepIds: [c.id, d.id] });
    later(40);
    await api.cars.finishWork({
      carId: one,
      jobId: (await jobOf(one)).id,
      kind: 'restore',
      finishedOn: '2026-03-14',
      finishState: 'restored',
      grade: 8,
      parts: [],
      closure: 'screw',
    });
    expect((await api.cars.get({ id: one })).work[0]?.minutes).toBe(10 + 5 + 20);
    expect(await stepOf(two, 'degrease')).toMatchObject({ seconds: (5 + 20) * 60, sharedBy: 1 });
    expect((await stepOf(two, 'degrease')).runningSince).not.toBeNull();
  });

  it('ticks steps off, says when what runs by itself is done, and takes it back', async () => {
    const { api, one, stepOf, jobOf } = await benched();
    const { id, waiting } = await stepOf(one, 'coat-light');
    await api.bench.setStep({ stepId: id, state: 'done' });
    const done = await stepOf(one, 'coat-light');
    expect(done.state).toBe('done');
    expect(Date.parse(done.waitsUntil!) - Date.parse(done.doneAt!)).toBe(waiting.likely * 60_000);
    expect((await jobOf(one)).state).toBe('open');
    await api.collection.undo();
    expect(await stepOf(one, 'coat-light')).toMatchObject({ state: 'to do', doneAt: null });
  });

  it('takes parts from shelf and donor, and finishing undone brings all back, the shelf included', async () => {
    const { api, session, one, donor, stepOf, jobOf, later } = await benched();
    await api.collection.savePart({ name: 'Hub', inStock: 3, unit: 95, currency: 'USD' });
    const [hub] = await api.collection.parts();
    const { id: jobId } = await jobOf(one);
    const used = { jobId, currency: 'USD', part: 'wheels' as const };
    const start = () => {
      const { change: _, change_row: __, ...rest } = tableHashes(session.collection!.read.sqlite);
      return rest;
    };
    const bare = start();
    await api.bench.addPart({
      ...used,
      name: 'Hub',
      originality: 'reproduction',
      shelfId: hub!.id,
      quantity: 2,
      minor: 190,
    });
    expect((await api.collection.parts())[0]?.inStock).toBe(1);
    expect(
      (
        await refusalOf(
          api.bench.addPart({
            ...used,
            name: 'Hub',
            originality: 'reproduction',
            shelfId: hub!.id,
            quantity: 2,
          }),
        )
      ).message,
    ).toBe('There are only 1 of Hub on the shelf.');
    await api.bench.addPart({
      ...used,
      name: 'Glazing',
      part: 'glazing',
      originality: 'original',
      donorCarId: donor,
    });
    await api.bench.addMaterial({ jobId, name: 'Stripper', minor: 140, currency: 'USD' });
    const { id: stepId } = await stepOf(one, 'strip');
    await api.bench.start({ stepIds: [stepId] });
    later(50);
    const before = start();
    await api.cars.finishWork({
      carId: one,
      jobId,
      kind: 'restore',
      finishedOn: '2026-03-14',
      finishState: 'restored',
      grade: 8,
      parts: [{ part: 'wheels', grade: 9, originality: 'reproduction' }],
      closure: 'screw',
    });
    const page = await api.cars.get({ id: one });
    expect(page.work[0]).toMatchObject({ jobId, minutes: 50 });
    expect(page.expenses.map(({ what, minor }) => [what, minor]).toSorted()).toEqual([
      ['Hub', 190],
      ['Stripper', 140],
    ]);
    expect((await jobOf(one)).state).toBe('finished');
    expect((await jobOf(one)).uses).toContainEqual(
      expect.objectContaining({ name: 'Glazing', part: expect.objectContaining({ donorCarId: donor }) }),
    );
    expect(page.fitted.map(({ name, donorNumber }) => [name, donorNumber])).toEqual([
      ['Hub', null],
      ['Glazing', 'B-3'],
    ]);
    expect((await api.cars.get({ id: donor })).gave).toMatchObject([
      { name: 'Glazing', part: 'glazing', carId: one, inventoryNumber: 'B-1' },
    ]);
    expect((await refusalOf(api.bench.setStep({ stepId, state: 'done' }))).message).toBe('That job is over.');
    await api.collection.undo();
    expect(start()).toEqual(before);
    for (let i = 0; i < 4; i++) await api.collection.undo();
    expect(start()).toEqual(bare);
    expect((await api.collection.parts())[0]?.inStock).toBe(3);
  });

  it('pauses, goes on, and is given up only with a reason', async () => {
    const { api, one, jobOf } = await benched();
    const { id } = await jobOf(one);
    await api.bench.change({ id, state: 'paused' });
    expect((await jobOf(one)).state).toBe('paused');
    expect((await refusalOf(api.bench.change({ id, state: 'given up' }))).message).toMatch(/Say why/);
    await api.bench.change({ id, state: 'given up', reason: 'The axle channel cracked' });
    expect(await jobOf(one)).toMatchObject({ state: 'given up', reason: 'The axle channel cracked' });
    // Its page says so, and nothing was done to its finish.
    expect(await api.cars.get({ id: one })).toMatchObject({
      status: 'kept',
      finishState: 'original',
      givenUp: [{ jobId: id, kind: 'restore', reason: 'The axle channel cracked', minutes: 0 }],
    });
  });

  it('that is given up once the paint is off leaves no car with its factory finish; undo brings it back', async () => {
    const { api, one, stepOf, jobOf } = await benched();
    const { id: stepId } = await stepOf(one, 'strip');
    await api.bench.setStep({ stepId, state: 'done' });
    const { id } = await jobOf(one);
    await api.bench.change({ id, state: 'given up', reason: 'Decay in the metal' });
    expect((await api.cars.get({ id: one })).finishState).toBe('stripped');
    await api.collection.undo();
    expect(await api.cars.get({ id: one })).toMatchObject({ finishState: 'original', givenUp: [] });
  });

  it('keeps notes, photographs at their step, what was looked at, its order, and time entered by hand', async () => {
    const { api, session, one, two, stepOf, jobOf } = await benched();
    const hashes = () => {
      const { change: _, change_row: __, ...rest } = tableHashes(session.collection!.read.sqlite);
      return rest;
    };
    const bare = hashes();
    const [first, second] = [(await jobOf(one)).id, (await jobOf(two)).id];
    const { id: stepId } = await stepOf(one, 'strip');
    await api.bench.note({ id: first, notes: 'Front post is thin', who: 'Own hands' });
    await api.bench.addPhotos({
      jobId: first,
      stepId,
      moment: 'before',
      files: [new File([new Uint8Array(await picture('jpeg'))], 'a.jpg')],
    });
    await api.bench.enterTime({ stepId, minutes: 20 });
    await api.bench.reorder({ ids: [second, first] });
    const job = await jobOf(one);
    expect(job).toMatchObject({ notes: 'Front post is thin', who: 'Own hands' });
    expect(job.photos).toMatchObject([{ stepId, moment: 'before' }]);
    expect((await stepOf(one, 'strip')).seconds).toBe(1200);
    expect((await api.bench.list()).map(({ id }) => id)).toEqual([second, first]);
    expect((await api.cars.get({ id: one })).photos).toMatchObject([{ state: 'before' }]);

    const keys = job.lookList.map(({ key }) => key);
    expect(keys).toEqual(expect.arrayContaining(['glazing-front', 'glazing-rear', 'axles', 'wheels']));
    await api.bench.look({ jobId: first, key: 'glazing-rear', seen: true });
    await api.bench.look({ jobId: first, key: 'axles', seen: true });
    await api.bench.look({ jobId: first, key: 'axles', seen: false });
    expect((await jobOf(one)).lookedAt).toEqual(['glazing-rear']);
    expect((await refusalOf(api.bench.look({ jobId: first, key: 'engine', seen: true }))).message).toMatch(
      /not on the list/,
    );
    for (let i = 0; i < 7; i++) await api.collection.undo();
    expect(hashes()).toEqual(bare);
  });

  it('calls once when what runs by itself is done, also after the call was heard', async () => {
    const { api, one, stepOf, later } = await benched();
    const { id } = await stepOf(one, 'coat-light');
    await api.bench.setStep({ stepId: id, state: 'done' });
    later(24 * 60);
    expect(await api.bench.calls()).toMatchObject([{ stepId: id, inventoryNumber: 'B-1' }]);
    await api.bench.heard({ stepIds: [id] });
    expect((await stepOf(one, 'coat-light')).heardAt).not.toBeNull();
    expect(await api.bench.calls()).toEqual([]);
    // Done again, it waits again.
    await api.bench.setStep({ stepId: id, state: 'done' });
    expect(await stepOf(one, 'coat-light')).toMatchObject({ heardAt: null });
  });

  it('gives a part back to the shelf that was noted by mistake', async () => {
    const { api, one, jobOf } = await benched();
    await api.collection.savePart({ name: 'Hub', inStock: 3, unit: 95, currency: 'USD' });
    const [hub] = await api.collection.parts();
    const { id: jobId } = await jobOf(one);
    const part = { name: 'Hub', originality: 'reproduction' as const, shelfId: hub!.id, currency: 'USD' };
    await api.bench.addPart({ jobId, ...part, quantity: 2 });
    const [use] = (await jobOf(one)).uses;
    await api.bench.removeUse({ jobId, useId: use!.id, is: 'part' });
    expect((await jobOf(one)).uses).toEqual([]);
    expect((await api.collection.parts())[0]?.inStock).toBe(3);
  });

  it('counts by what can be counted under a clock that sleeps, changes its zone or goes back', async () => {
    const { api, clock, one, stepOf, later } = await benched();
    const { id } = await stepOf(one, 'smooth');
    const seconds = async () => (await stepOf(one, 'smooth')).seconds;
    await api.bench.start({ stepIds: [id] });
    later(30);
    // Another zone is the same instant, written differently.
    clock.now = new Date(clock.now.toISOString().replace('Z', '+00:00'));
    await api.bench.stop({ stepIds: [id] });
    expect(await seconds()).toBe(1800);
    await api.bench.start({ stepIds: [id] });
    later(-90);
    await api.bench.stop({ stepIds: [id] });
    expect(await stepOf(one, 'smooth')).toMatchObject({ seconds: 1800, uncounted: 1 });
    await api.bench.start({ stepIds: [id] });
    // Asleep for nine hours.
    later(9 * 60);
    await api.bench.stop({ stepIds: [id] });
    expect(await stepOf(one, 'smooth')).toMatchObject({ seconds: 1800, uncounted: 2 });
  });
});
