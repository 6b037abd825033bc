import './small-heap.ts';
import { RPCHandler } from '@orpc/server/message-port';
import { router } from '../api/router.ts';
import { type BeginOptions, newSession, openAsAsked } from './begin.ts';
import { hostLink } from './host-link.ts';
import { leftUndone } from './messages.ts';

/**
 * The data service: owns the database, answers pages over their ports, and closes the
 * collection before it ends.
 */
const serve = () => {
  const options: BeginOptions = JSON.parse(process.argv[2] ?? '{}');
  const link = hostLink();
  const session = newSession({ ...options, host: 'window' });
  const handler = new RPCHandler(router);

  // The screens show why, and what can be done; a state that names the problem needs no notice beside it.
  const opened = openAsAsked(session, options).catch((error: unknown) => {
    if (!session.state().problem) session.tell(error instanceof Error ? error.message : String(error));
  });
  // A page that comes while the collection is being opened waits for it, instead of being told
  // that there is none.
  link.onPort(async port => {
    await opened;
    handler.upgrade(port, { context: { session } });
    port.start();
  });
  // Ctrl+C reaches every process of the terminal; the main one then asks this one to close.
  process.on('SIGINT', () => undefined);
  let closing = false;
  link.onClose(async () => {
    if (closing) return;
    closing = true;
    await opened;
    await session.close();
    // The pages are gone by now; what closing could not do, such as the backup after changes, is left to the terminal
    // and to the exit code. The next opening makes up for a backup.
    const { notices } = session.state();
    for (const notice of notices) console.error(notice);
    process.exit(notices.length > 0 ? leftUndone : 0);
  });
};

serve();
