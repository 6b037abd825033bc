import { spawnSync } from 'node:child_process';
import { cpSync, globSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
/** A step up from each floor inside a room, and a file at the top of each room that imports a folder. */
const stepsUp: [rule: string, file: string, target: string][] = [
  ['valuation-reading-stays-on-its-floor', 'valuation/reading/up.ts', 'statistics'],
  ['valuation-statistics-stays-on-its-floor', 'valuation/statistics/up.ts', 'market'],
  ['valuation-market-stays-on-its-floor', 'valuation/market/up.ts', 'worth'],
  ['valuation-work-stays-on-its-floor', 'valuation/work/up.ts', 'worth'],
  ['valuation-worth-stays-on-its-floor', 'valuation/worth/up.ts', 'decision'],
  ['valuation-decision-stays-on-its-floor', 'valuation/decision/up.ts', 'choice'],
  ['valuation-choice-stays-on-its-floor', 'valuation/choice/up.ts', 'lots'],
  ['valuation-lots-stays-on-its-floor', 'valuation/lots/up.ts', 'decision'],
  ['valuation-types-stays-on-its-floor', 'valuation/types/up.ts', 'market'],
  ['valuation-work-stays-on-its-floor', 'valuation/work/up.ts', 'worth'],
  ['valuation-ground-imports-no-folder', 'valuation/up.ts', 'market'],
  ['db-file-stays-on-its-floor', 'db/file/up.ts', 'history'],
  ['db-reference-stays-on-its-floor', 'db/reference/up.ts', 'records'],
  ['db-search-stays-on-its-floor', 'db/search/up.ts', 'records'],
  ['db-history-stays-on-its-floor', 'db/history/up.ts', 'records'],
  ['db-records-stays-on-its-floor', 'db/records/climbs.ts', 'import'],
  ['db/records-cars-stays-on-its-floor', 'db/records/cars/up.ts', 'own-words'],
  ['db/records-collection-stays-on-its-floor', 'db/records/collection/up.ts', 'cars'],
  ['db/records-decisions-stays-on-its-floor', 'db/records/decisions/up.ts', 'bench'],
  ['db/records-lots-stays-on-its-floor', 'db/records/lots/up.ts', 'cars'],
  ['db/records-plans-stays-on-its-floor', 'db/records/plans/up.ts', 'bench'],
  ['db/records-sales-stays-on-its-floor', 'db/records/sales/up.ts', 'names'],
  ['db/records-worth-stays-on-its-floor', 'db/records/worth/up.ts', 'cars'],
  ['db/records-bench-stays-on-its-floor', 'db/records/bench/up.ts', 'cars'],
  ['db/records-own-words-stays-on-its-floor', 'db/records/own-words/up.ts', 'names'],
  ['db/records-names-stays-on-its-floor', 'db/records/names/up.ts', 'bench'],
  ['db/records-ground-imports-no-folder', 'db/records/up.ts', 'cars'],
  ['reports-join-stays-on-its-floor', 'reports/join/up.ts', 'typesetting'],
  ['reports-tables-stays-on-its-floor', 'reports/tables/up.ts', 'model'],
  ['reports-labels-stays-on-its-floor', 'reports/labels/up.ts', 'typesetting'],
  ['reports-documents-stays-on-its-floor', 'reports/documents/up.ts', 'typesetting'],
  ['reports-model-stays-on-its-floor', 'reports/model/up.ts', 'typesetting'],
  ['reports-spreadsheet-stays-on-its-floor', 'reports/spreadsheet/up.ts', 'typesetting'],
  ['reports-typesetting-stays-on-its-floor', 'reports/typesetting/up.ts', 'gallery'],
  ['reports-gallery-stays-on-its-floor', 'reports/gallery/up.ts', 'model'],
  ['reports-ground-imports-no-folder', 'reports/up.ts', 'model'],
  ['db-photos-stays-on-its-floor', 'db/photos/up.ts', 'backup'],
  ['db-backup-stays-on-its-floor', 'db/backup/up.ts', 'import'],
  ['db-import-stays-on-its-floor', 'db/import/up.ts', 'backup'],
  ['db-engine-stays-on-its-floor', 'db/engine/up.ts', 'backup'],
  ['db-schema-stays-on-its-floor', 'db/schema/up.ts', 'file'],
  ['db-archive-stays-on-its-floor', 'db/archive/up.ts', 'records'],
  ['db-ground-imports-no-folder', 'db/up.ts', 'file'],
  ['electron/api-views-stays-on-its-floor', 'electron/api/views/up.ts', 'cars'],
  ['electron/api-session-stays-on-its-floor', 'electron/api/session/up.ts', 'figures'],
  ['electron/api-reference-stays-on-its-floor', 'electron/api/reference/up.ts', 'figures'],
  ['electron/api-figures-stays-on-its-floor', 'electron/api/figures/up.ts', 'cars'],
  ['electron/api-sales-stays-on-its-floor', 'electron/api/sales/up.ts', 'cars'],
  ['electron/api-names-stays-on-its-floor', 'electron/api/names/up.ts', 'cars'],
  ['electron/api-young-stays-on-its-floor', 'electron/api/young/up.ts', 'collection'],
  ['electron/api-lists-stays-on-its-floor', 'electron/api/lists/up.ts', 'cars'],
  ['electron/api-gallery-stays-on-its-floor', 'electron/api/gallery/up.ts', 'lots'],
  ['electron/api-cars-stays-on-its-floor', 'electron/api/cars/up.ts', 'collection'],
  ['electron/api-work-stays-on-its-floor', 'electron/api/work/up.ts', 'lots'],
  ['electron/api-worth-stays-on-its-floor', 'electron/api/worth/up.ts', 'lots'],
  ['electron/api-decisions-stays-on-its-floor', 'electron/api/decisions/up.ts', 'lots'],
  ['electron/api-lots-stays-on-its-floor', 'electron/api/lots/up.ts', 'decisions'],
  ['electron/api-collection-stays-on-its-floor', 'electron/api/collection/up.ts', 'reports'],
  ['electron/api-imports-stays-on-its-floor', 'electron/api/imports/up.ts', 'collection'],
  ['electron/api-reports-stays-on-its-floor', 'electron/api/reports/up.ts', 'collection'],
  ['electron/api-inputs-stays-on-its-floor', 'electron/api/inputs/up.ts', 'session'],
  ['electron/api-words-stays-on-its-floor', 'electron/api/words/up.ts', 'collection'],
  ['electron/api-exports-stays-on-its-floor', 'electron/api/exports/up.ts', 'papers'],
  ['electron/api-papers-stays-on-its-floor', 'electron/api/papers/up.ts', 'archive'],
  ['electron/api-archive-stays-on-its-floor', 'electron/api/archive/up.ts', 'papers'],
  ['electron/api-ground-imports-no-folder', 'electron/api/up.ts', 'session'],
  ['renderer-theme-stays-on-its-floor', 'renderer/theme/up.ts', 'api'],
  ['renderer-api-stays-on-its-floor', 'renderer/api/up.ts', 'components'],
  ['renderer-components-stays-on-its-floor', 'renderer/components/up.ts', 'screens'],
  ['renderer-screens-stays-on-its-floor', 'renderer/screens/up.ts', 'shell'],
  ['renderer-ground-imports-no-folder', 'renderer/up.ts', 'theme'],
  ['no-screen-imports-another', 'renderer/screens/home/up.ts', 'screens/cars'],
];
const rooms = ['electron/api', 'valuation', 'db/records', 'db', 'reports', 'renderer'];
/** The room whose floors a rule holds; a file at the top of db/records stands in that room for the rules of both. */
const roomOf = (rule: string) => rooms.find(room => rule.startsWith(`${room}-`)) ?? 'renderer';
const folders = ['electron', 'renderer', 'db', 'migrations', 'valuation', 'reports'];

/**
 * The arrows that DEVELOPERS.md draws are worth what their check sees: each kind of breach is planted,
 * and must be named.
 */
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

    for (const [rule, file, target] of stepsUp) {
      const leaf = `${roomOf(rule)}/${target}/leaf.ts`;
      plant(leaf, 'export const leaf: number = 1; export type Leaf = number;');
      plant(file, `import type { Leaf } from './${relative(dirname(file), leaf)}'; export type Up = Leaf;`);
    }
    plant('renderer/main.tsx', 'export const start = 1;');
    plant('renderer/shell/starts.ts', "export { start } from '../main.tsx';");
    plant('valuation/index.ts', "export { leaf } from './market/leaf.ts';");
    plant('valuation/worth/asks-the-roof.ts', "import { leaf } from '../index.ts'; export default leaf;");
    plant('valuation/worth/fine.ts', "import { leaf } from '../market/leaf.ts'; export default leaf;");

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
    ['valuation-worth-stays-on-its-floor', 'valuation/worth/asks-the-roof.ts'],
    ['renderer-shell-stays-on-its-floor', 'renderer/shell/starts.ts'],
    ['no-cycles', 'reports/part.ts'],
  ])('names %s', (rule, file) => {
    expect(said).toContain(`error ${rule}: ${file}`);
  });
  it.each(stepsUp)('holds the floors inside a room: %s', (rule, file) => {
    expect(said).toContain(`error ${rule}: ${file}`);
  });
  it('has a step up planted for every floor that is held', () => {
    const config = createRequire(import.meta.url)('../../.ci/dependency-cruiser.cjs');
    const held = config.forbidden
      .map(({ name }: { name: string }) => name)
      .filter((name: string) => /-stays-on-its-floor$|-ground-imports-no-folder$/.test(name));
    // Only the file that starts the screens lies above the shell; it is among the rules above.
    const planted = [...stepsUp.map(([rule]) => rule), 'renderer-shell-stays-on-its-floor'];
    expect(held.filter((name: string) => !planted.includes(name))).toEqual([]);
  });
  it('knows a floor for every folder of sources in these rooms', () => {
    const rules = new Set(stepsUp.map(([rule]) => rule));
    const folderless = rooms.flatMap(room =>
      [...new Set(globSync('*/**/*.{ts,tsx}', { cwd: join(root, room) }).map(file => file.split('/')[0]))]
        .filter(folder => !rules.has(`${room}-${folder}-stays-on-its-floor`))
        .map(folder => `${room}/${folder}`),
    );
    expect(folderless).toEqual(['valuation/wording', 'renderer/shell']);
  });
  it('lets the allowed arrows be, types from the API among them', () => {
    expect(said).not.toMatch(/: [\w/]+\/fine\.tsx? →/);
    expect(code).toBeGreaterThan(0);
  });
});
