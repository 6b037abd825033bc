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

/** The exit code of a service, and of the app, whose closing left something undone, such as the backup after changes. */
export const leftUndone = 4;

export type FromService = { kind: 'data'; port: number; data: unknown };
