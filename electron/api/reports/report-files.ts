import { randomUUID } from 'node:crypto';
import type { Session } from '../session/session.ts';

export interface ReportFile {
  fileName: string;
  mime: string;
  bytes: Uint8Array;
}

/** How many finished reports wait to be fetched; making another lets go of the oldest. */
const most = 4;

const waiting = new WeakMap<Session, Map<string, ReportFile>>();

/** Keeps a finished report until it is fetched or others have followed it; returns the token to fetch it by. */
export const keepReport = (session: Session, file: ReportFile): string => {
  const files = waiting.get(session) ?? new Map<string, ReportFile>();
  waiting.set(session, files);
  const token = randomUUID();
  files.set(token, file);
  const [oldest] = files.keys();
  if (files.size > most && oldest !== undefined) files.delete(oldest);
  return token;
};

export const keptReport = (session: Session, token: string): ReportFile | undefined =>
  waiting.get(session)?.get(token);
