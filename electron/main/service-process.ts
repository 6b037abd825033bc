import { spawn } from 'node:child_process';
import { type MessagePortMain, utilityProcess } from 'electron';
import type { FromService, ToService } from '../service/messages.ts';

/** A service process of either kind: how to write to it and how it is heard. */
export interface ServiceProcess {
  send(message: ToService, port?: MessagePortMain): void;
  kill(): void;
  onExit(listener: (code: number | null) => void): void;
}

/** The usual way: a process of Electron's own, which is sent the ports themselves. */
export const startUtilityService = (file: string, options: string): ServiceProcess => {
  const child = utilityProcess.fork(file, [options], { serviceName: 'Playworn data service' });
  return {
    send: (message, port) => child.postMessage(message, port ? [port] : []),
    kill: () => void child.kill(),
    onExit: listener => void child.on('exit', listener),
  };
};

/**
 * Where the Electron at hand is too old to load the database: a Node that the user names, to which each
 * port's messages are relayed under a number.
 */
export const startRelayedService = (node: string, file: string, options: string): ServiceProcess => {
  const child = spawn(node, [file, options], {
    stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
    serialization: 'advanced',
  });
  // What is sent to a process that is ending may come too late; how it ended is told by its exit alone.
  const send = (message: ToService) => {
    if (child.connected) child.send(message, () => undefined);
  };
  const pages = new Map<number, MessagePortMain>();
  let last = 0;
  const relay = (page: MessagePortMain) => {
    const port = ++last;
    pages.set(port, page);
    send({ kind: 'connect', port });
    page.on('message', event => send({ kind: 'data', port, data: event.data }));
    page.on('close', () => {
      pages.delete(port);
      send({ kind: 'disconnect', port });
    });
    page.start();
  };
  child.on('message', (message: FromService) => {
    if (message.kind === 'data') pages.get(message.port)?.postMessage(message.data);
  });
  return {
    send: (message, page) => (message.kind === 'connect' && page ? relay(page) : send(message)),
    kill: () => void child.kill(),
    onExit: listener => {
      child.on('exit', listener);
      child.on('error', () => {
        if (child.pid === undefined) listener(null);
      });
    },
  };
};
