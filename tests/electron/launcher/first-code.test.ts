import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, it } from 'vitest';

const router = join(import.meta.dirname, '../../../electron/api/router.ts');

it('a service starts without what writes and reads spreadsheets, which is loaded when asked for', () => {
  const loaded: string[] = JSON.parse(
    execFileSync(process.execPath, [
      '--input-type=module',
      '--eval',
      `import { createRequire } from 'node:module';
      await import(${JSON.stringify(router)});
      console.log(JSON.stringify(Object.keys(createRequire(import.meta.url).cache)));`,
    ]).toString(),
  );
  expect(loaded.some(file => file.includes('better-sqlite3'))).toBe(true);
  expect(loaded.filter(file => /exceljs/.test(file))).toEqual([]);
});
