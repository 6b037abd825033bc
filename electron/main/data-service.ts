import { app, type MessagePortMain } from 'electron';
import { startRelayedService, startUtilityService } from './service-process.ts';

/** The process that owns the database, as the main process sees it. */
export interface DataService {
  /** Hands the service its end of a page's channel. */
  connect(port: MessagePortMain): void;
  /**
   * Closes the collection, with its backup, and ends the process. Returns its exit code: 0 where closing did
   * all, `leftUndone` where it did not, null where the process was ended by force.
   */
  close(): Promise<number | null>;
}

/**
 * Long enough for a backup of a large collection; after that the process is ended, which
 * loses nothing committed.
 */
const closingTime = 120_000;

/**
 * `options` reach the service as JSON; `lost` hears that the process ended without having been asked to. The
 * two switches by environment are for development, not for a packaged app.
 */
export const startDataService = (
  file: string,
  options: unknown,
  lost: (code: number | null) => void,
): DataService => {
  const env = app.isPackaged ? {} : process.env;
  const node = env.PLAYWORN_SERVICE_NODE;
  const start = [env.PLAYWORN_SERVICE_FILE ?? file, JSON.stringify(options)] as const;
  const service = node ? startRelayedService(node, ...start) : startUtilityService(...start);
  let state: 'running' | 'closing' | 'ended' = 'running';
  let afterEnd: (code: number | null) => void = () => {};
  service.onExit(code => {
    const before = state;
    state = 'ended';
    if (before === 'running') lost(code);
    if (before === 'closing') afterEnd(code);
  });
  return {
    connect: port => service.send({ kind: 'connect', port: 0 }, port),
    close: () =>
      new Promise(resolve => {
        if (state === 'ended') return resolve(0);
        state = 'closing';
        const timer = setTimeout(() => service.kill(), closingTime);
        afterEnd = code => {
          clearTimeout(timer);
          resolve(code);
        };
        service.send({ kind: 'close' });
      }),
  };
};
