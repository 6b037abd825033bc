import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folders = ['electron', 'renderer', 'db', 'migrations', 'valuation', 'reports'];

/** The arrows that DEVELOPERS.md draws are worth what their check sees: each kind of breach is planted, and must be named. */
describe('the check of the arrows', () => {
  let tree: string;
  let said: string;
  let code: number | null;

  const plant = (path: string, text: string) => {
    mkdirSync(dirname(join(tree, path)), { recursive: true });
    writeFileSync(join(tree, path), text);
  };

  beforeAll(() => {
    tree = mkdtempSync(join(tmpdir(), 'arrows-'));
    symlinkSync(join(root, 'node_modules'), join(tree, 'node_modules'));
    mkdirSync(join(tree, '.ci'));
    cpSync(join(root, '.ci/dependency-cruiser.cjs'), join(tree, '.ci/dependency-cruiser.cjs'));
    plant('package.json', '{ "type": "module" }');
    for (const folder of folders)
      plant(`${folder}/leaf.ts`, 'export const leaf: number = 1; export type Leaf = number;');
    plant('electron/api/leaf.ts', 'export const leaf = 1; export type Leaf = number;');
    plant('valuation/money.ts', 'export const money = 1;');

    plant(
      'electron/fine.ts',
      "import { leaf } from '../db/leaf.ts'; export { leaf as other } from '../reports/leaf.ts'; export default leaf;",
    );
    plant(
      'electron/reaches-screens.tsx',
      "import { leaf } from '../renderer/leaf.ts'; export const mark = <b>{leaf}</b>;",
    );
    plant(
      'renderer/fine.tsx',
      "import type { Leaf } from '../electron/api/leaf.ts'; import { leaf } from '../valuation/leaf.ts'; export const mark: Leaf = leaf;",
    );
    plant('renderer/runs-the-api.ts', "import { leaf } from '../electron/api/leaf.ts'; export default leaf;");
    plant(
      'renderer/reaches-main.ts',
      "import type { Leaf } from '../electron/leaf.ts'; export type Other = Leaf;",
    );
    plant(
      'db/fine.ts',
      "import { money } from '../valuation/money.ts'; import type { Leaf } from '../valuation/leaf.ts'; export const sum: Leaf = money;",
    );
    plant(
      'valuation/wording/fine.ts',
      "import { money } from '../money.ts'; import type { Leaf } from '../leaf.ts'; export const text = (leaf: Leaf) => leaf + money;",
    );
    plant(
      'reports/fine.ts',
      "import { text } from '../valuation/wording/fine.ts'; export const line = text(1);",
    );
    plant(
      'valuation/wording/reckons.ts',
      "import { leaf } from '../leaf.ts'; export const text = () => String(leaf);",
    );
    plant('valuation/speaks.ts', "import { text } from './wording/fine.ts'; export const reason = text(1);");
    plant('db/reckons.ts', "import { leaf } from '../valuation/leaf.ts'; export default leaf;");
    plant('reports/reads-rows.ts', "export { leaf } from '../db/leaf.ts';");
    plant('valuation/reads-files.ts', "import { readFileSync } from 'node:fs'; export default readFileSync;");
    plant('valuation/lazy.ts', "export const later = () => import('../db/leaf.ts');");
    plant('migrations/uses-live-code.ts', "import { leaf } from '../db/leaf.ts'; export default leaf;");
    plant('migrations/fine.ts', "import { sql } from 'kysely'; export default sql;");
    plant('db/round.ts', "import { trip } from './trip.ts'; export const round = () => trip;");
    plant(
      'reports/whole.ts',
      "import type { Part } from './part.ts'; export interface Whole { parts: Part[] }",
    );
    plant('reports/part.ts', "import type { Whole } from './whole.ts'; export interface Part { of: Whole }");
    plant('db/trip.ts', "import { round } from './round.ts'; export const trip = () => round;");

    const run = spawnSync(
      process.execPath,
      [
        join(root, 'node_modules/dependency-cruiser/bin/dependency-cruiser.mjs'),
        '--config',
        '.ci/dependency-cruiser.cjs',
        ...folders,
      ],
      { cwd: tree, encoding: 'utf8', env: { ...process.env, NO_COLOR: '1' } },
    );
    said = run.stdout + run.stderr;
    code = run.status;
  });
  afterAll(() => rmSync(tree, { recursive: true, force: true }));

  it.each([
    ['electron-imports-only', 'electron/reaches-screens.tsx'],
    ['renderer-types-of-the-api-only', 'renderer/runs-the-api.ts'],
    ['renderer-sees-only-the-api', 'renderer/reaches-main.ts'],
    ['db-and-reports-take-money-and-wording-only', 'db/reckons.ts'],
    ['wording-words-facts-only', 'valuation/wording/reckons.ts'],
    ['the-engine-makes-no-sentences', 'valuation/speaks.ts'],
    ['reports-imports-only', 'reports/reads-rows.ts'],
    ['valuation-is-pure', 'valuation/reads-files.ts'],
    ['valuation-imports-only', 'valuation/lazy.ts'],
    ['migrations-imports-only', 'migrations/uses-live-code.ts'],
    ['no-cycles', 'db/round.ts'],
    ['no-cycles', 'reports/part.ts'],
  ])('names %s', (rule, file) => {
    expect(said).toContain(`error ${rule}: ${file}`);
  });
  it('lets the allowed arrows be, types from the API among them', () => {
    expect(said).not.toMatch(/: [\w/]+\/fine\.tsx? →/);
    expect(code).toBeGreaterThan(0);
  });
});
