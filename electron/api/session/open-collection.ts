import type { Collection } from '../../../db/collection.ts';
import { refused } from './errors.ts';
import type { Session } from './session.ts';

/** The session's collection; refused where none is open. */
export const openOf = (session: Session): Collection => {
  if (!session.collection)
    throw refused('No collection is open. Open one, or start a new one.', 'no-collection');
  return session.collection;
};
