/**
 * How the property tests draw their values. `npm test` draws the same ones every time, from one seed that it
 * prints, so that a run passes or fails by what the code does; `npm run fuzz` hands in new seeds, and more
 * runs for properties that do not say how many they need. Vitest loads this file before each test file, and
 * calls `setup` once before all.
 */
import fc from 'fast-check';

export interface PropertySettings {
  seed: number;
  /** Runs of a property that does not say itself how many; fast-check's hundred where left out. */
  numRuns?: number;
  /** Where a failure lies among the drawn and shrunk values, as fast-check printed it. */
  path?: string;
}

/** The environment variable that carries settings other than the usual ones, as JSON. */
export const settingsVariable = 'PLAYWORN_PROPERTIES';

const handedIn = process.env[settingsVariable];
const settings: PropertySettings = handedIn ? JSON.parse(handedIn) : { seed: 1968 };

fc.configureGlobal(settings);

export const setup = (): void => {
  console.log(`Property tests draw from seed ${settings.seed}; npm run fuzz draws from new ones.`);
};
