import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { Uint8ArrayReader, Uint8ArrayWriter, ZipReader } from '@zip.js/zip.js';
import { Package } from 'datapackage';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { copyDemo } from '../../helpers/demo/demo-template.ts';
import { faultsOfPackage } from '../../published/data-package-standard.ts';
import { answer } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (...names: string[]) => join(folder, ...names);

interface Resource {
  name: string;
  path: string;
  schema: { fields: { name: string }[] };
}

const unpack = async (zip: string, to: string) => {
  const reader = new ZipReader(new Uint8ArrayReader(readFileSync(zip)), { useWebWorkers: false });
  for (const entry of await reader.getEntries())
    if (!entry.directory) {
      mkdirSync(dirname(join(to, entry.filename)), { recursive: true });
      writeFileSync(join(to, entry.filename), await entry.getData(new Uint8ArrayWriter()));
    }
};

/**
 * The library knows the profiles of version 1 alone. What version 2 has in common with them is checked: the descriptor by the
 * profile's JSON Schema, each table's description by that of Table Schema, and every cell by its field's type.
 */
const expectValid = async (base: string) => {
  const { $schema, ...descriptor } = JSON.parse(readFileSync(join(base, 'datapackage.json'), 'utf8'));
  expect($schema).toBe('https://datapackage.org/profiles/2.0/datapackage.json');
  const resources = (descriptor.resources as Resource[]).map(resource => ({
    ...resource,
    profile: 'tabular-data-resource',
  }));
  const loaded = await Package.load(
    { ...descriptor, profile: 'tabular-data-package', resources },
    { basePath: base, strict: true },
  );
  expect(loaded.errors).toEqual([]);
  expect(loaded.valid).toBe(true);
  let rows = 0;
  for (const resource of loaded.resources) {
    const read = await resource.read();
    rows += read.length;
    for (const row of read) expect(row).toHaveLength(resource.schema.fieldNames.length);
  }
  return rows;
};

describe('a Data Package', () => {
  beforeAll(() => copyDemo(at('demo')), 120_000);

  it('of a market to share is read by another program, by its profile and its types', async () => {
    await answer(['share', '--collection', at('demo'), '--out', at('market.zip')]);
    await unpack(at('market.zip'), at('market'));
    expect(await expectValid(at('market'))).toBeGreaterThan(600);
    expect(faultsOfPackage(at('market'))).toEqual([]);
  });

  it('of all tables in an archive is, too', async () => {
    await answer(['archive', '--collection', at('demo'), '--no-report', '--out', at('bag')]);
    const { globSync } = await import('node:fs');
    const [description = ''] = globSync('**/datapackage.json', { cwd: at('bag') });
    expect(await expectValid(dirname(at('bag', description)))).toBeGreaterThan(1000);
    expect(faultsOfPackage(dirname(at('bag', description)))).toEqual([]);
  });

  it('that is wrong is told to be', async () => {
    writeFileSync(join(at('market'), 'datapackage.json'), JSON.stringify({ resources: [{ name: 7 }] }));
    const { valid } = await Package.load(
      JSON.parse(readFileSync(join(at('market'), 'datapackage.json'), 'utf8')),
    );
    expect(valid).toBe(false);
  });
});
