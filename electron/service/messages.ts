/** What the main process and the data service say to each other, beside the pages' own traffic. */

/**
 * `connect` comes with a MessagePort where the service is a utility process. A child process of a plain Node
 * cannot be sent one: there the main process relays each port's messages under its number.
 */
export type ToService =
  | { kind: 'connect'; port: number }
  | { kind: 'data'; port: number; data: unknown }
  | { kind: 'disconnect'; port: number }
  | { kind: 'close' };

export type FromService = { kind: 'data'; port: number; data: unknown };
