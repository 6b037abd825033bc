import type { SupportedMessagePort } from '@orpc/client/message-port';
import type { ParentPort } from 'electron';
import type { FromService, ToService } from './messages.ts';

/** A port to a page. What the page sends is kept until `start`. */
export type PagePort = SupportedMessagePort & { start(): void };

/** The service's line to the process that started it, whichever kind of process it runs in. */
export interface HostLink {
  /** Ports to pages, as they come. */
  onPort(listener: (port: PagePort) => void): void;
  /** Asked to close, or left alone by a host that is gone. */
  onClose(listener: () => void): void;
}

const utilityLink = (parent: ParentPort): HostLink => ({
  onPort: listener =>
    parent.on('message', event => {
      const [port] = event.ports;
      if ((event.data as ToService).kind === 'connect' && port) listener(port);
    }),
  onClose: listener =>
    parent.on('message', event => {
      if ((event.data as ToService).kind === 'close') listener();
    }),
});

type Listener = (event?: { data: unknown }) => void;

/** Looks like a MessagePort to the API, and is one number's share of the line between the two processes. */
class RelayedPort {
  private readonly listeners = new Map<string, Listener[]>();
  private readonly send: (data: unknown) => void;
  private waiting: unknown[] | null = [];

  constructor(send: (data: unknown) => void) {
    this.send = send;
  }

  on(type: string, listener: Listener): void {
    this.listeners.set(type, [...(this.listeners.get(type) ?? []), listener]);
  }

  postMessage(data: unknown): void {
    this.send(data);
  }

  start(): void {
    const waiting = this.waiting ?? [];
    this.waiting = null;
    for (const data of waiting) this.emit('message', data);
  }

  receive(data: unknown): void {
    if (this.waiting) this.waiting.push(data);
    else this.emit('message', data);
  }

  close(): void {
    this.emit('close');
  }

  private emit(type: 'message' | 'close', data?: unknown): void {
    for (const listener of this.listeners.get(type) ?? []) listener({ data });
  }
}

/** A child process started with a message line (`serialization: 'advanced'`, so that bytes stay bytes). */
const childLink = (child: NodeJS.Process): HostLink => {
  const ports = new Map<number, RelayedPort>();
  const tell = (message: FromService) => {
    if (child.connected) child.send?.(message, undefined, undefined, () => undefined);
  };
  let onPort: (port: PagePort) => void = () => {};
  let onClose = () => {};
  child.on('message', (message: ToService) => {
    if (message.kind === 'connect') {
      const port = new RelayedPort(data => tell({ kind: 'data', port: message.port, data }));
      ports.set(message.port, port);
      onPort(port);
    } else if (message.kind === 'data') ports.get(message.port)?.receive(message.data);
    else if (message.kind === 'disconnect') {
      ports.get(message.port)?.close();
      ports.delete(message.port);
    } else onClose();
  });
  child.on('disconnect', () => onClose());
  return {
    onPort: listener => {
      onPort = listener;
    },
    onClose: listener => {
      onClose = listener;
    },
  };
};

export const hostLink = (): HostLink => {
  if (process.parentPort) return utilityLink(process.parentPort);
  if (process.send) return childLink(process);
  throw new Error('The data service is started by Playworn, not by hand.');
};
