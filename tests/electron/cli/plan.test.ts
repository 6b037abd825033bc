import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { spell } from '../../../valuation/wording/dialect.ts';
import { plainLocale } from '../../../valuation/wording/reader.ts';
import { cautions, generalCautions } from '../../../valuation/wording/work/cautions.ts';
import type { Hazard } from '../../../valuation/words.ts';
import { answer, playworn } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
const collection = join(folder, 'collection');

describe('playworn plan', () => {
  beforeAll(async () => {
    const file = join(folder, 'list.csv');
    writeFileSync(file, 'inventory_number,casting,grade\nQ-1,Tallow,4\n');
    await answer(['import', file, '--as', 'lot', '--collection', collection]);
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const on = (...words: string[]) => ['plan', ...words, '--collection', collection];

  it('prints each step with why, hours, cost, grades and departures', async () => {
    const { stdout, code } = await playworn(on('--car', 'q-1'));
    expect(code).toBe(0);
    expect(stdout).toContain('Straighten the axles');
    expect(stdout).toContain('axles not graded, taken as C4, to C9');
    expect(stdout).toMatch(/Hours of your own: \d+\.\d–\d+\.\d–\d+\.\d/);
    expect(stdout).toContain('It can end in C9, restored, in 35 of 100 cases');
    expect(stdout).toContain('Departures from the factory specification: visible post closure');
  });

  it('names no grade that a car taken apart would end in, and one where care ends in one', async () => {
    expect((await playworn(on('--car', 'Q-1', '--to', 'donor'))).stdout).not.toContain('It can end in');
    expect((await playworn(on('--car', 'Q-1', '--to', 'conserve'))).stdout).toContain('It can end in C4.5.');
  });

  it('prints the caution of every hazard in it, whole', async () => {
    for (const kind of ['restore', 'donor', 'conserve']) {
      const { stdout } = await playworn(on('--car', 'Q-1', '--to', kind));
      const plan = (await answer(on('--car', 'Q-1', '--to', kind))) as { steps: { hazards: Hazard[] }[] };
      const called = new Set(plan.steps.flatMap(step => step.hazards));
      expect(called.size).toBeGreaterThan(0);
      for (const hazard of called)
        for (const sentence of cautions[hazard].sentences)
          expect(stdout).toContain(spell(sentence, plainLocale));
      for (const sentence of generalCautions) expect(stdout).toContain(spell(sentence, plainLocale));
    }
  });

  it('refuses a number that no car has', async () => {
    const { code, stderr } = await playworn(on('--car', 'Q-9'));
    expect(code).not.toBe(0);
    expect(stderr).toContain('no car with the inventory number "Q-9"');
  });
});
