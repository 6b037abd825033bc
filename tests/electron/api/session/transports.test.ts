import { MessageChannel, type MessagePort } from 'node:worker_threads';
import { createORPCClient, isDefinedError, safe } from '@orpc/client';
import { RPCLink as FetchLink } from '@orpc/client/fetch';
import { RPCLink as PortLink } from '@orpc/client/message-port';
import { RPCHandler as FetchHandler } from '@orpc/server/fetch';
import { RPCHandler as PortHandler } from '@orpc/server/message-port';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { router } from '../../../../electron/api/router.ts';
import type { Session } from '../../../../electron/api/session/session.ts';
import { type Api, addReference, newCollectionService, newService, resultOf } from '../../../helpers/api.ts';
import { picture } from '../../../helpers/pictures/pictures.ts';

/** Ends of a channel that Node types apart from the page's ports. */
const asPort = (port: MessagePort) => port as unknown as globalThis.MessagePort;

const options = (heard: Heard) => ({
  clientInterceptors: [
    ({ next, signal }: { next: () => Promise<unknown>; signal?: AbortSignal | undefined }) => {
      heard(signal);
      return next();
    },
  ],
});

/** Hears how the calls end that a service answers. */
type Heard = (signal: AbortSignal | undefined) => void;

const overPort = (session: Session, heard: Heard = () => {}): Api => {
  const { port1, port2 } = new MessageChannel();
  onTestFinished(() => {
    port1.close();
    port2.close();
  });
  new PortHandler(router, options(heard)).upgrade(asPort(port1), { context: { session } });
  port1.start();
  const client = createORPCClient<Api>(new PortLink({ port: asPort(port2) }));
  port2.start();
  return client;
};

const overFetch = (session: Session, heard: Heard = () => {}): Api => {
  const handler = new FetchHandler(router, options(heard));
  return createORPCClient<Api>(
    new FetchLink({
      url: 'http://127.0.0.1/rpc',
      fetch: async (request, init) => {
        const { response } = await handler.handle(new Request(request, init), {
          prefix: '/rpc',
          context: { session },
        });
        return response ?? new Response('No such procedure', { status: 404 });
      },
    }),
  );
};

describe.each([
  ['a message port', overPort],
  ['HTTP', overFetch],
])('over %s', (_name, connect) => {
  it('lists, writes and undoes as directly', async () => {
    const { session, api: direct } = await newCollectionService();
    const api = connect(session);
    const { variations } = await addReference(direct);
    const { id: lotId } = await api.lots.create({
      name: 'Loft',
      currency: 'USD',
      costs: [{ kind: 'price', minor: 5001 }],
    });
    await api.cars.create({ lotId, cars: [{ variationId: variations.emberTwin, grade: 6.5 }, {}] });
    expect(await api.cars.list({ lotId })).toEqual(await direct.cars.list({ lotId }));
    expect(await api.lots.get({ id: lotId })).toEqual(await direct.lots.get({ id: lotId }));
    expect(await api.collection.undo()).toEqual({ label: 'Added 2 cars to Loft' });
    expect(await api.cars.list({})).toEqual([]);
  });

  it('tells a refusal from a fault, with its words', async () => {
    const { session } = newService();
    const api = connect(session);
    const closed = await safe(api.lots.list());
    expect(closed.error).toMatchObject({ code: 'NO_COLLECTION', status: 409 });
    expect(isDefinedError(closed.error)).toBe(true);
    await api.collection.create({});
    await api.lots.create({ name: 'Loft', currency: 'USD' });
    const twice = await safe(api.lots.create({ name: 'loft', currency: 'USD' }));
    expect(twice.error).toMatchObject({
      code: 'REFUSED',
      message: 'There is already a lot with this name. Choose another name.',
      data: { reason: 'constraint' },
    });
    expect(isDefinedError(twice.error)).toBe(true);
    const bad = await safe(api.lots.get({ id: -1 }));
    expect(bad.error).toMatchObject({ code: 'BAD_REQUEST' });
    expect(bad.error?.message).toContain('This cannot be used: id:');
  });

  it('carries photographs there and back', async () => {
    const { session } = await newCollectionService();
    const api = connect(session);
    const { ids } = await api.cars.create({ lotId: null, cars: [{}] });
    const bytes = await picture('png', { width: 900, height: 600 });
    const file = new File([new Uint8Array(bytes)], 'front.png', { type: 'image/png' });
    const {
      added: [photo],
    } = await api.photos.add({ carId: ids[0] ?? 0, files: [file], view: 'front' });
    expect(photo).toMatchObject({ width: 900, height: 600, view: 'front' });
    const sha256 = photo?.sha256 ?? '';
    const original = await api.photos.read({ sha256, size: 'original' });
    expect(original.type).toBe('image/png');
    expect(Buffer.from(await original.arrayBuffer()).equals(bytes)).toBe(true);
    const small = await api.photos.read({ sha256, size: 'thumbnail' });
    expect(small.type).toBe('image/webp');
    expect(small.size).toBeLessThan(20_000);
  });

  it('streams long work, and an import is one undo', async () => {
    const { session } = await newCollectionService();
    const api = connect(session);
    const rows = Array.from({ length: 1200 }, (_, i) => `Q-${i + 1},Dovetail,${1 + (i % 10)}`);
    const file = new File([`inventory_number,casting,grade\n${rows.join('\n')}\n`], 'loft.csv', {
      type: 'text/csv',
    });
    const lot = { name: 'Loft', currency: 'USD', costs: [{ kind: 'price' as const, minor: 100_000 }] };
    let progress = 0;
    const stream = await api.imports.run({ as: 'lot', file, lot });
    let accepted = 0;
    for await (const step of stream)
      if (step.type === 'progress') progress += 1;
      else accepted = step.result.accepted;
    expect(accepted).toBe(1200);
    expect(progress).toBeGreaterThan(0);
    const shares = (await api.cars.list({})).map(car => car.cost ?? Number.NaN);
    expect(shares.reduce((sum, share) => sum + share, 0)).toBe(100_000);
    expect(await api.collection.undo()).toEqual({ label: 'Imported the lot "Loft"' });
    expect((await api.collection.summary()).counts).toMatchObject({ cars: 0, lots: 0 });
  });

  it('stops long work when its caller does, leaving nothing of it', async () => {
    const { session } = await newCollectionService();
    // The import pauses every 500 rows. Its fourth pause lasts until the service has heard that the caller
    // stopped, however long that takes on its way. Pauses of others in this process are none of its.
    const go = setImmediate;
    const stopped = Promise.withResolvers<void>();
    let pauses = 0;
    const isOfImport = () =>
      new Error('where it is called from').stack?.includes('db/import/reading') ?? false;
    vi.stubGlobal('setImmediate', (then: () => void) =>
      !isOfImport() || ++pauses < 4 ? go(then) : void stopped.promise.then(() => go(then)),
    );
    onTestFinished(() => {
      vi.unstubAllGlobals();
    });
    const api = connect(session, signal => signal?.addEventListener('abort', () => stopped.resolve()));
    const rows = Array.from({ length: 4000 }, (_, i) => `Q-${i + 1},Dovetail`);
    const file = new File([`inventory_number,casting\n${rows.join('\n')}\n`], 'loft.csv');
    const controller = new AbortController();
    const run = async () => {
      const stream = await api.imports.run(
        { as: 'lot', file, lot: { name: 'Loft', currency: 'USD' } },
        { signal: controller.signal },
      );
      for await (const step of stream) if (step.type === 'progress' && step.done > 500) controller.abort();
    };
    await expect(run()).rejects.toThrow();
    await stopped.promise;
    vi.unstubAllGlobals();
    // The writer is free again, and nothing was kept.
    await api.lots.create({ name: 'Another', currency: 'USD' });
    expect((await api.collection.summary()).counts).toMatchObject({ cars: 0, lots: 1 });
    expect((await api.collection.history()).map(entry => entry.label)).toEqual(['Added the lot Another']);
  });

  it('gives a failure inside a stream its words', async () => {
    const { session } = await newCollectionService();
    const api = connect(session);
    const made = resultOf(await api.reports.make({ format: 'csv' }));
    await expect(made).rejects.toMatchObject({
      code: 'REFUSED',
      message: 'There is no car to report. Add cars, or choose others.',
    });
  });
});
