import { RPCHandler } from '@orpc/server/message-port';
import { router } from '../api/router.ts';
import { type BeginOptions, newSession, openAsAsked } from './begin.ts';
import { hostLink } from './host-link.ts';

/** The data service: owns the database, answers pages over their ports, and closes the collection before it ends. */
const serve = () => {
  const options: BeginOptions = JSON.parse(process.argv[2] ?? '{}');
  const link = hostLink();
  const session = newSession({ ...options, host: 'window' });
  const handler = new RPCHandler(router);

  const opened = openAsAsked(session, options).catch((error: unknown) =>
    link.tell({ kind: 'not-opened', reason: error instanceof Error ? error.message : String(error) }),
  );
  // A page that comes while the collection is being opened waits for it, instead of being told that there is none.
  link.onPort(async port => {
    await opened;
    handler.upgrade(port, { context: { session } });
    port.start();
  });
  let closing = false;
  link.onClose(async () => {
    if (closing) return;
    closing = true;
    await opened;
    await session.close();
    link.tell({ kind: 'closed' });
    process.exit(0);
  });
};

serve();
