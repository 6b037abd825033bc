import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { faultsOfPackage } from './data-package-standard.ts';

type Json = Record<string, unknown>;

/** A package of two tables as the standard wants it, changed by one stroke. */
const faultsAfter = (change: (descriptor: Json, files: Record<string, string>) => void): string[] => {
  const base = mkdtempSync(join(tmpdir(), 'playworn-package-'));
  onTestFinished(() => rmSync(base, { recursive: true, force: true }));
  const field = (name: string, type: string, constraints?: Json) => ({
    name,
    type,
    ...(constraints && { constraints }),
  });
  const descriptor: Json = {
    $schema: 'https://datapackage.org/profiles/2.0/datapackage.json',
    name: 'two-tables',
    created: '2026-03-14T12:00:00Z',
    resources: [
      {
        name: 'lot',
        path: 'lot.csv',
        type: 'table',
        dialect: { delimiter: ',', lineTerminator: '\r\n', doubleQuote: true, header: true },
        schema: {
          fields: [field('id', 'integer'), field('name', 'string', { required: true })],
          missingValues: ['\\N'],
          primaryKey: ['id'],
        },
      },
      {
        name: 'car',
        path: 'car.csv',
        schema: {
          fields: [field('id', 'integer'), field('lot_id', 'integer'), field('bought_on', 'date')],
          missingValues: ['\\N'],
          primaryKey: ['id'],
          foreignKeys: [{ fields: ['lot_id'], reference: { resource: 'lot', fields: ['id'] } }],
        },
      },
    ],
  };
  const files: Record<string, string> = {
    'lot.csv': 'id,name\r\n1,"Loft, ""big"""\r\n2,\r\n',
    'car.csv': 'id,lot_id,bought_on\r\n1,1,2026-02-28\r\n2,\\N,\\N\r\n',
  };
  change(descriptor, files);
  writeFileSync(join(base, 'datapackage.json'), JSON.stringify(descriptor));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(base, name), text);
  return faultsOfPackage(base);
};

/** What lies in a descriptor at the end of these steps. */
const at = (all: Json, ...steps: (string | number)[]): Json =>
  steps.reduce<unknown>((value, step) => (value as Json)[step], all) as Json;
const lot = (all: Json, ...steps: (string | number)[]): Json => at(all, 'resources', 0, ...steps);
const car = (all: Json, ...steps: (string | number)[]): Json => at(all, 'resources', 1, ...steps);

describe('the check of a Data Package by its standard, version 2', () => {
  it('finds nothing where nothing is wrong', () => {
    expect(faultsAfter(() => {})).toEqual([]);
  });

  it.each<[string, (descriptor: Json, files: Record<string, string>) => void]>([
    ['Data Package, $schema', all => delete all.$schema],
    ['Data Package, created', all => Object.assign(all, { created: '14 March 2026' })],
    ['Data Package, resources', all => Object.assign(all, { resources: [] })],
    ['unchecked', all => Object.assign(all, { licenses: 'free' })],
    ['Data Resource, name', all => delete lot(all).name],
    ['Data Resource, name', all => Object.assign(car(all), { name: 'lot' })],
    ['Data Resource, type', all => Object.assign(lot(all), { type: 'list' })],
    ['Data Resource, path or data', all => Object.assign(lot(all), { data: [] })],
    ['Glossary, URL or Path', all => Object.assign(lot(all), { path: '../lot.csv' })],
    ['Glossary, URL or Path', all => Object.assign(lot(all), { path: '/lot.csv' })],
    ['Glossary, URL or Path', all => Object.assign(lot(all), { path: '.hidden/lot.csv' })],
    ['Table Dialect, header', all => Object.assign(lot(all, 'dialect'), { header: 'yes' })],
    ['Table Dialect, delimiter', all => Object.assign(lot(all, 'dialect'), { delimiter: 1 })],
    ['Table Schema, fields', all => delete lot(all, 'schema').fields],
    ['Table Schema, Field, name', all => Object.assign(lot(all, 'schema', 'fields', 1), { name: 'id' })],
    ['Table Schema, Field Types', all => Object.assign(lot(all, 'schema', 'fields', 1), { type: 'text' })],
    [
      'Table Schema, Field Constraints, required',
      all => Object.assign(lot(all, 'schema', 'fields', 1, 'constraints'), { required: 1 }),
    ],
    ['Table Schema, missingValues', all => Object.assign(lot(all, 'schema'), { missingValues: ['', ''] })],
    ['Table Schema, primaryKey', all => Object.assign(lot(all, 'schema'), { primaryKey: 'id' })],
    ['Table Schema, primaryKey', all => Object.assign(lot(all, 'schema'), { primaryKey: ['number'] })],
    [
      'Table Schema, foreignKeys',
      all => Object.assign(car(all, 'schema', 'foreignKeys', 0), { fields: ['lot'] }),
    ],
    [
      'Table Schema, foreignKeys',
      all => Object.assign(car(all, 'schema', 'foreignKeys', 0, 'reference'), { resource: 'car' }),
    ],
    [
      'Table Schema, foreignKeys',
      all => Object.assign(car(all, 'schema', 'foreignKeys', 0, 'reference'), { resource: 'barn' }),
    ],
    [
      'Table Schema, foreignKeys',
      all => Object.assign(car(all, 'schema', 'foreignKeys', 0, 'reference'), { fields: ['id', 'name'] }),
    ],
    [
      'Table Schema, foreignKeys',
      (_, files) => Object.assign(files, { 'car.csv': 'id,lot_id,bought_on\r\n1,9,\\N\r\n' }),
    ],
    [
      'Table Schema, fieldsMatch (exact)',
      (_, files) => Object.assign(files, { 'lot.csv': 'name,id\r\nLoft,1\r\n' }),
    ],
    [
      'Table Schema, fieldsMatch',
      (_, files) => Object.assign(files, { 'lot.csv': '\ufeffid,name\r\n1,Loft\r\n' }),
    ],
    ['Table Schema, required', (_, files) => Object.assign(files, { 'lot.csv': 'id,name\r\n1,\\N\r\n' })],
    [
      'Table Schema, primaryKey',
      (_, files) => Object.assign(files, { 'lot.csv': 'id,name\r\n1,a\r\n1,b\r\n' }),
    ],
    [
      'Table Schema, Field Types, integer',
      (_, files) => Object.assign(files, { 'lot.csv': 'id,name\r\none,a\r\n' }),
    ],
    [
      'Table Schema, Field Types, date',
      (_, files) => Object.assign(files, { 'car.csv': 'id,lot_id,bought_on\r\n1,1,28.2.2026\r\n' }),
    ],
  ])('finds what breaks “%s”', (section, change) => {
    expect(faultsAfter(change).filter(fault => fault.startsWith(`${section}: `))).not.toEqual([]);
  });
});
