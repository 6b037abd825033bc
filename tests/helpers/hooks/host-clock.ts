import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

/** The clock of a host that a test starts: what it shows, and how it jumps. */
export interface HostClock {
  /** For the environment of the host. */
  env: Record<string, string>;
  /** Moves the clock on, or back, by minutes. */
  jump(minutes: number): void;
  /** Carries the clock to another time zone; the instant stays. */
  travel(zone: string): void;
  now(): Date;
}

/** A clock in a folder of the test's own, standing at `start` until it is moved. */
export const hostClock = (folder: string, start: Date): HostClock => {
  const file = join(folder, 'clock.json');
  let now = start;
  let zone = 'Europe/Berlin';
  const write = () => writeFileSync(file, JSON.stringify({ now: now.toISOString(), zone }));
  write();
  const hook = pathToFileURL(join(import.meta.dirname, 'clock-hook.mjs')).href;
  return {
    env: { TEST_CLOCK: file, NODE_OPTIONS: `--import=${hook}` },
    jump: minutes => {
      now = new Date(now.getTime() + minutes * 60_000);
      write();
    },
    travel: next => {
      zone = next;
      write();
    },
    now: () => now,
  };
};
