import { resolve } from 'node:path';
import { createRouterClient } from '@orpc/server';
import { collectionExists } from '../../db/open-collection.ts';
import manifest from '../../package.json' with { type: 'json' };
import { warmUp } from '../api/collection/warm-up.ts';
import { router } from '../api/router.ts';
import { createSession, type Session, type SessionOptions } from '../api/session/session.ts';
import type { CollectionState, Progress } from '../api/views.ts';
import { bundledFiles } from './bundled-files.ts';
import { collectionPlaces } from './places.ts';
import { keepPrivate } from './private-files.ts';

export interface BeginOptions {
  host: SessionOptions['host'];
  /** The folder asked for; without one, the folder in the user's documents. */
  collection?: string | undefined;
  /** Open the demo, making it where it is not there yet. */
  demo?: boolean | undefined;
  /** Folder of the bundle that this runs from; without one, it runs from a checkout's sources. */
  bundle?: string | undefined;
}

/**
 * The instant that SOURCE_DATE_EPOCH names, which reproducible-builds.org defines as seconds since 1970;
 * undefined without one.
 */
const sourceDate = (seconds = process.env.SOURCE_DATE_EPOCH): string | undefined =>
  seconds !== undefined && /^\d{1,11}$/.test(seconds)
    ? new Date(Number(seconds) * 1000).toISOString()
    : undefined;

/** The session of a host process, on the host's clock, with no collection open yet. */
export const newSession = ({ host, collection, demo, bundle }: BeginOptions): Session => {
  const places = collectionPlaces();
  const dir = collection && resolve(collection);
  const stampedAt = sourceDate();
  keepPrivate(dir ?? places.defaultDir);
  return createSession({
    host,
    now: () => new Date(),
    defaultDir: dir && !demo ? dir : places.defaultDir,
    demoDir: dir && demo ? dir : places.demoDir,
    version: manifest.version,
    beforeOpening: keepPrivate,
    ...(stampedAt !== undefined && { stampedAt }),
    ...(bundle !== undefined && bundledFiles(bundle)),
  });
};

type Follow = (work: AsyncIterable<Progress<CollectionState>>) => Promise<unknown>;

const unwatched: Follow = async work => {
  for await (const step of work) void step;
};

/**
 * Opens what was asked for. A folder without a collection is left alone: the screens then offer to start one
 * there. Making the demo takes a while, which `follow` can show. Throws what opening throws, such as another
 * program holding the collection.
 */
export const openAsAsked = async (
  session: Session,
  { demo }: BeginOptions,
  follow: Follow = unwatched,
): Promise<void> => {
  if (demo) await follow(await createRouterClient(router, { context: { session } }).collection.openDemo());
  else if (collectionExists(session.options.defaultDir)) await session.open(session.options.defaultDir);
  void warmUp(session);
};
