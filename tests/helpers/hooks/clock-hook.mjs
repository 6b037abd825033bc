/**
 * Loaded into a host before it starts (`node --import`), in tests only: its clock then shows the time that
 * the file named by TEST_CLOCK says, `{ now: ISO instant, zone: IANA name }`, and stands still between
 * changes.
 */
import { readFileSync } from 'node:fs';

const file = process.env.TEST_CLOCK;
const Real = globalThis.Date;
const now = () => {
  const set = JSON.parse(readFileSync(file, 'utf8'));
  if (process.env.TZ !== set.zone) process.env.TZ = set.zone;
  return Real.parse(set.now);
};

if (file)
  globalThis.Date = class extends Real {
    constructor(...given) {
      if (given.length === 0) super(now());
      else super(...given);
    }
    static now() {
      return now();
    }
  };
