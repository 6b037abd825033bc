import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { answer, playworn } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
const collection = join(folder, 'collection');
const strangers = (name: string) =>
  fileURLToPath(new URL(`../../fixtures/strangers/${name}`, import.meta.url));
const file = (name: string, lines: string[]) => {
  writeFileSync(join(folder, name), lines.join('\n'));
  return join(folder, name);
};
const value = () => answer(['value', '--collection', collection]);

describe('playworn believe', () => {
  beforeAll(async () => {
    await answer(['import', strangers('reference.csv'), '--as', 'reference', '--collection', collection]);
    const cars = file('cars.csv', [
      'casting,colour,grade',
      'Brackenhall Van,Ember,8',
      'Silver Kite,Tidepool,6',
      'Pennyfeather,Sweet Pea,5',
    ]);
    await answer(['import', cars, '--as', 'lot', '--collection', collection]);
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('values the cars of what was said, and says that this is what they rest on', async () => {
    expect((await value()).cars.map(({ asFound }: { asFound: unknown }) => asFound)).toEqual([
      null,
      null,
      null,
    ]);
    expect(
      await answer([
        'believe',
        '--collection',
        collection,
        '--series',
        'Meadow',
        '--grade',
        'C8',
        '--low',
        '60',
        '--high',
        '90',
      ]),
    ).toEqual({ added: 1, rejected: [] });
    const { cars } = await value();
    expect(cars[0].asFound).not.toBeNull();
    expect(cars[0].evidence.kinds.shares).toEqual({ sale: 0, purchase: 0, lot: 0, belief: 1 });
    expect(cars[2].asFound).toBeNull();
  });

  it('takes many from a file, and tells the rows that it does not understand', async () => {
    const rows = file('beliefs.csv', [
      'casting,series,variation,grade,low,high,finish,note',
      'Pennyfeather,,Sweet Pea,C7,20,35,,seen at fairs',
      'Marlpit Hauler,,,C9,15,30,restored,',
      'Nobody,,,C9,15,30,,',
    ]);
    const told = await answer(['believe', '--collection', collection, '--file', rows]);
    expect(told).toEqual({
      added: 2,
      rejected: [{ row: 3, reason: expect.stringContaining('"Nobody"') }],
    });
    expect((await value()).cars[2].asFound).not.toBeNull();
  });

  it('refuses what it does not know, with what to say instead', async () => {
    const nothing = await playworn(['believe', '--collection', collection, '--casting', 'Pennyfeather']);
    expect(nothing.code).toBe(1);
    expect(nothing.stderr).toContain('--grade, --low and --high');
    const unknown = await playworn([
      'believe',
      '--collection',
      collection,
      '--casting',
      'Nobody',
      '--grade',
      '8',
      '--low',
      '2',
      '--high',
      '3',
    ]);
    expect(unknown.code).toBe(1);
    expect(unknown.stderr).toContain('Nothing was saved');
  });
});
