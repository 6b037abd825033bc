import { createHash } from 'node:crypto';
import { resolve } from 'node:path';

/** What the launcher, or the user, asked the app for; switches of Electron's own are passed over. */
export interface StartOptions {
  collection?: string;
  demo: boolean;
}

export const startOptions = (argv: readonly string[]): StartOptions => {
  const given = argv.find(argument => argument.startsWith('--collection='));
  const demo = argv.includes('--demo');
  return given ? { collection: resolve(given.slice('--collection='.length)), demo } : { demo };
};

/**
 * Names the profile of a start, so that two collections can be open in two instances, and one never in two.
 */
export const profileName = ({ collection, demo }: StartOptions): string | null => {
  if (!collection) return demo ? 'demo' : null;
  return createHash('sha256').update(collection).digest('hex').slice(0, 16);
};
