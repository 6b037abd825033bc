import { randomUUID } from 'node:crypto';
import { BoundedMap, slot } from '../session/cache.ts';
import type { Session } from '../session/session.ts';

export interface ReportFile {
  fileName: string;
  mime: string;
  bytes: Uint8Array;
}

/** Finished reports that wait to be fetched; making a fifth lets go of the oldest. */
const waiting = slot(() => new BoundedMap<string, ReportFile>(4));

/** Holds a finished report until others have followed it; returns the token to fetch it by. */
export const keepReport = (session: Session, file: ReportFile): string => {
  const token = randomUUID();
  session.cache.of(waiting).set(token, file);
  return token;
};

export const keptReport = (session: Session, token: string): ReportFile | undefined =>
  session.cache.of(waiting).get(token);
