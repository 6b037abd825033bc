import type { Migration } from 'kysely/migration';
import { up as firstSchema } from './0001-first-schema.ts';
import { up as ownWords } from './0002-own-words.ts';
import { up as work } from './0003-work.ts';
import { up as bench } from './0004-bench.ts';
import { up as seasonOptions } from './0005-season-options.ts';
import { up as lotBid } from './0006-lot-bid.ts';
import { up as waitingTexts } from './0007-waiting-texts.ts';

/** Every schema step in order. A step that has landed is frozen: change the schema by adding the next one. */
export const migrations: Record<string, Migration> = {
  '0001-first-schema': { up: firstSchema },
  '0002-own-words': { up: ownWords },
  '0003-work': { up: work },
  '0004-bench': { up: bench },
  '0005-season-options': { up: seasonOptions },
  '0006-lot-bid': { up: lotBid },
  '0007-waiting-texts': { up: waitingTexts },
};

/** What `PRAGMA user_version` says of a collection that all steps have reached. */
export const schemaVersion = Object.keys(migrations).length;
