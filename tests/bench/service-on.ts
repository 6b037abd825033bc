import { createRouterClient } from '@orpc/server';
import { router } from '../../electron/api/router.ts';
import { createSession } from '../../electron/api/session/session.ts';

/** The service as the command line has it, on a fixed day, for a collection in `dir`, which is not opened yet. */
export const serviceOn = (dir: string) => {
  const session = createSession({
    host: 'command line',
    now: () => new Date(2026, 2, 14, 12),
    defaultDir: dir,
    demoDir: `${dir}-demo`,
    version: '0.0.0',
    build: () => 'bench',
  });
  return { session, api: createRouterClient(router, { context: { session } }) };
};
