import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createRouterClient, type RouterClient } from '@orpc/server';
import { onTestFinished } from 'vitest';
import { type AppRouter, router } from '../../electron/api/router.ts';
import { createSession, type Session } from '../../electron/api/session/session.ts';

export type Api = RouterClient<AppRouter>;

/** A clock that tests set. */
export interface Clock {
  now: Date;
}

/**
 * A service without a collection, in folders of its own, on a clock that stands at noon of 14 March 2026, or at
 * another hour of it; its files dated by an instant from outside, where there is one.
 */
export const newService = ({
  hour = 12,
  stampedAt,
}: {
  hour?: number;
  stampedAt?: string;
} = {}): {
  session: Session;
  api: Api;
  dir: string;
  clock: Clock;
} => {
  const dir = mkdtempSync(join(tmpdir(), 'playworn-api-'));
  const clock = { now: new Date(2026, 2, 14, hour) };
  const session = createSession({
    host: 'command line',
    now: () => clock.now,
    defaultDir: join(dir, 'collection'),
    demoDir: join(dir, 'demo'),
    version: '0.0.0',
    ...(stampedAt !== undefined && { stampedAt }),
  });
  onTestFinished(async () => {
    await session.close();
    rmSync(dir, { recursive: true, force: true });
  });
  return { session, api: createRouterClient(router, { context: { session } }), dir, clock };
};

/** A service with an empty collection in US dollars open. */
export const newCollectionService = async (options: Parameters<typeof newService>[0] = {}) => {
  const service = newService(options);
  await service.api.collection.create({});
  return service;
};

/** What a stream of long work ends in; fails where it ends without a result. */
export const resultOf = async <T>(
  stream: AsyncIterable<{ type: 'progress' } | { type: 'done'; result: T }>,
): Promise<T> => {
  for await (const step of stream) if (step.type === 'done') return step.result;
  throw new Error('The stream ended without a result');
};

/** The error that a call ends in, as its caller sees it. */
export const refusalOf = async (
  call: Promise<unknown>,
): Promise<{ code: string; message: string; data: unknown }> => {
  try {
    await call;
  } catch (error) {
    if (error instanceof Error && 'code' in error && 'data' in error)
      return { code: String(error.code), message: error.message, data: error.data };
    throw error;
  }
  throw new Error('It went well, where it should have been refused');
};

/**
 * A reference of one series with two castings: "Dovetail" in two colours with two rear ends each, re-released
 * as "Dovetail Rally" in a third colour, and "Oxbow" in one colour; and eighteen sale records over them.
 */
export const addReference = async (api: Api) => {
  const casting = (name: string) =>
    api.reference.saveCasting({ maker: 'Quillon Toys', series: 'Slipwinds', name, bodyType: 'coupé' });
  const { id: dovetail } = await casting('Dovetail');
  const { id: oxbow } = await casting('Oxbow');
  const variation = async (
    castingId: number,
    releaseName: string,
    releaseYear: number,
    colour: string,
    rearEnd: string,
    rarity: 'common' | 'rare' = 'common',
  ) =>
    (
      await api.reference.saveVariation({
        castingId,
        releaseName,
        releaseYear,
        features: { colour, rearEnd, basePaint: 'full' },
        rarity,
      })
    ).id;
  const variations = {
    emberTwin: await variation(dovetail, 'Dovetail', 1968, 'Ember', 'twin lamps'),
    emberBar: await variation(dovetail, 'Dovetail', 1968, 'Ember', 'bar lamp'),
    mossTwin: await variation(dovetail, 'Dovetail', 1968, 'Moss', 'twin lamps'),
    mossBar: await variation(dovetail, 'Dovetail', 1968, 'Moss', 'bar lamp', 'rare'),
    plumGt: await variation(dovetail, 'Dovetail Rally', 1971, 'Plum', 'twin lamps'),
    skyOxbow: await variation(oxbow, 'Oxbow', 1969, 'Sky', ''),
  };
  const ids = Object.values(variations);
  for (let i = 0; i < 18; i++) {
    const variationId = ids[i % ids.length];
    await api.sales.create({
      soldOn: `20${24 + (i % 2)}-${String(1 + (i % 12)).padStart(2, '0')}-11`,
      price: 3000 + 370 * ((i * 7) % 18),
      currency: 'USD',
      castingId: variationId === variations.skyOxbow ? oxbow : dovetail,
      variationId: variationId ?? null,
      grade: 4 + (i % 11) / 2,
      source: i % 3 === 0 ? 'auction' : 'dealer',
      reference: `r${i}`,
    });
  }
  return { dovetail, oxbow, variations };
};
