import { parentPort, workerData } from 'node:worker_threads';
import { makePaper } from './make-paper.ts';
import type { PaperJob, WorkerMessage } from './worker-messages.ts';

const port = parentPort;
if (!port) throw new Error('This file is a worker; start it through createReportPdf');
const say = (message: WorkerMessage, transfer: ArrayBuffer[] = []): void =>
  port.postMessage(message, transfer);

try {
  const result = await makePaper(workerData as PaperJob, progress => say({ kind: 'progress', progress }));
  const pdf = new Uint8Array(result.pdf);
  say({ kind: 'done', result: { ...result, pdf } }, [pdf.buffer]);
} catch (error) {
  say({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
}
