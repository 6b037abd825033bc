import { BroadcastChannel } from 'node:worker_threads';

/** The worker that decodes HEIC, held at its beginning: it says that it has begun, and decodes when it is told to. */
const channel = new BroadcastChannel('held HEIC');
const told = new Promise(resolve => {
  channel.onmessage = resolve;
});
channel.postMessage('begun');
await told;
channel.close();
await import('../../../db/photos/heic-worker.ts');
