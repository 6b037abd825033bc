import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';

/**
 * Checks a folder against what the Data Package Standard, version 2 (datapackage.org/standard), says a package MUST be: of Data
 * Package, Data Resource, Table Dialect, Table Schema and Glossary each requirement on a descriptor or on its data that a package
 * of CSV files can break. Written from the text; the section stands in each fault. Left out are duties of readers, and
 * properties that our packages never have, which are told as faults so that they cannot slip by unchecked.
 */

type Json = Record<string, unknown>;

const isObject = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isTexts = (value: unknown): value is string[] =>
  Array.isArray(value) && value.every(one => typeof one === 'string');
const isText = (value: unknown): value is string => typeof value === 'string';
const doubles = (values: readonly unknown[]): boolean => new Set(values).size < values.length;

const known = {
  package: ['$schema', 'name', 'title', 'description', 'version', 'created', 'resources', 'playworn'],
  resource: ['name', 'path', 'title', 'type', 'format', 'mediatype', 'encoding', 'dialect', 'schema'],
  dialect: ['delimiter', 'lineTerminator', 'doubleQuote', 'header'],
  schema: ['$schema', 'fields', 'missingValues', 'primaryKey', 'foreignKeys'],
  field: ['name', 'type', 'description', 'constraints'],
  constraints: ['required', 'unique'],
} as const;

const types: Record<string, RegExp> = {
  string: /^/,
  integer: /^[+-]?\d+$/,
  number: /^([+-]?(\d+(\.\d*)?|\.\d+)(E[+-]?\d+)?|NaN|-?INF)$/i,
  date: /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/,
};

/** RFC 3339, section 5.6. */
const dateTime = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?(Z|[+-]\d{2}:\d{2})$/;

type Tell = (isRight: boolean, section: string, fault: string) => boolean;

/** Glossary, "URL or Path": relative, at or below the descriptor, nothing hidden. */
const isPath = (path: unknown): path is string =>
  isText(path) &&
  path !== '' &&
  !path.startsWith('/') &&
  !/^[a-z]+:/i.test(path) &&
  !path.includes('\\') &&
  path.split('/').every(step => step !== '' && !step.startsWith('.'));

const strangers = (tell: Tell, kind: keyof typeof known, object: Json, where: string) => {
  for (const property of Object.keys(object))
    tell((known[kind] as readonly string[]).includes(property), 'unchecked', `${where}: ${property}`);
};

const checkDialect = (tell: Tell, dialect: unknown, where: string) => {
  if (!tell(isObject(dialect), 'Data Resource, dialect', `${where}: no object`) || !isObject(dialect)) return;
  strangers(tell, 'dialect', dialect, `${where}, dialect`);
  for (const name of ['delimiter', 'lineTerminator'])
    tell(dialect[name] === undefined || isText(dialect[name]), `Table Dialect, ${name}`, `${where}: no text`);
  for (const name of ['header', 'doubleQuote'])
    tell(
      dialect[name] === undefined || typeof dialect[name] === 'boolean',
      `Table Dialect, ${name}`,
      `${where}: neither true nor false`,
    );
};

interface Field {
  name: string;
  type: string;
  required: boolean;
  unique: boolean;
}

const checkField = (tell: Tell, field: unknown, where: string): Field[] => {
  if (!tell(isObject(field), 'Table Schema, Field', `${where}: no object`) || !isObject(field)) return [];
  strangers(tell, 'field', field, where);
  tell(isText(field.name), 'Table Schema, Field, name', `${where}: none`);
  const type = field.type ?? 'any';
  tell(
    isText(type) && Object.hasOwn(types, type),
    'Table Schema, Field Types',
    `${where}: ${String(type)} is none that is checked here`,
  );
  const constraints = field.constraints ?? {};
  if (!tell(isObject(constraints), 'Table Schema, Field Constraints', `${where}: no object`)) return [];
  const told = constraints as Json;
  strangers(tell, 'constraints', told, where);
  for (const name of ['required', 'unique'])
    tell(
      told[name] === undefined || typeof told[name] === 'boolean',
      `Table Schema, Field Constraints, ${name}`,
      `${where}: neither true nor false`,
    );
  return [
    {
      name: String(field.name),
      type: String(type),
      required: told.required === true,
      unique: told.unique === true,
    },
  ];
};

interface Schema {
  fields: Field[];
  missing: string[];
  primaryKey: string[];
  foreignKeys: { fields: string[]; resource: string | undefined; toFields: string[] }[];
}

const checkForeignKey = (tell: Tell, key: unknown, names: string[], where: string): Schema['foreignKeys'] => {
  const section = 'Table Schema, foreignKeys';
  const reference = isObject(key) ? key.reference : null;
  if (!tell(isObject(key) && isObject(reference), section, `${where}: no object with a reference`)) return [];
  const { fields } = key as Json;
  const { fields: toFields, resource } = reference as Json;
  const isRight =
    isTexts(fields) && isTexts(toFields) && fields.every(name => names.includes(name)) && fields.length > 0;
  if (!tell(isRight, section, `${where}: fields are no names of fields`)) return [];
  if (!tell((fields as string[]).length === (toFields as string[]).length, section, `${where}: lengths`))
    return [];
  tell(resource === undefined || isText(resource), section, `${where}: resource is no text`);
  return [
    {
      fields: fields as string[],
      resource: resource as string | undefined,
      toFields: toFields as string[],
    },
  ];
};

const checkSchema = (tell: Tell, schema: unknown, where: string): Schema | null => {
  if (!tell(isObject(schema), 'Data Resource, schema', `${where}: no object`) || !isObject(schema))
    return null;
  strangers(tell, 'schema', schema, `${where}, schema`);
  const listed = schema.fields;
  if (!tell(Array.isArray(listed), 'Table Schema, fields', `${where}: no array`)) return null;
  const fields = (listed as unknown[]).flatMap((field, i) => checkField(tell, field, `${where}, field ${i}`));
  const names = fields.map(({ name }) => name);
  tell(!doubles(names), 'Table Schema, Field, name', `${where}: a name stands twice`);
  const missing = schema.missingValues ?? [''];
  tell(isTexts(missing) && !doubles(missing), 'Table Schema, missingValues', `${where}: no unique texts`);
  const primaryKey = schema.primaryKey ?? [];
  tell(
    isTexts(primaryKey) && primaryKey.every(name => names.includes(name)),
    'Table Schema, primaryKey',
    `${where}: no names of fields`,
  );
  const keys = schema.foreignKeys ?? [];
  tell(Array.isArray(keys), 'Table Schema, foreignKeys', `${where}: no array`);
  return {
    fields,
    missing: isTexts(missing) ? missing : [],
    primaryKey: isTexts(primaryKey) ? primaryKey : [],
    foreignKeys: (Array.isArray(keys) ? keys : []).flatMap(key => checkForeignKey(tell, key, names, where)),
  };
};

interface Table {
  name: string;
  schema: Schema;
  rows: string[][];
}

const keyOf = (table: Table, fields: readonly string[]) => {
  const places = fields.map(name => table.schema.fields.findIndex(field => field.name === name));
  return (row: string[]): string | null => {
    const cells = places.map(place => row[place] ?? '');
    return cells.some(cell => table.schema.missing.includes(cell)) ? null : JSON.stringify(cells);
  };
};

const checkRows = (tell: Tell, table: Table) => {
  const { name, schema, rows } = table;
  for (const [c, field] of schema.fields.entries()) {
    const cells = rows.map(row => row[c] ?? '');
    const there = cells.filter(cell => !schema.missing.includes(cell));
    const isNeeded = field.required || schema.primaryKey.includes(field.name);
    const where = `${name}.${field.name}`;
    tell(
      !isNeeded || there.length === cells.length,
      'Table Schema, required',
      `${where}: a value is missing`,
    );
    tell(!field.unique || !doubles(there), 'Table Schema, unique', `${where}: a value stands twice`);
    const strange = there.find(cell => types[field.type]?.test(cell) === false);
    tell(strange === undefined, `Table Schema, Field Types, ${field.type}`, `${where}: ${strange}`);
  }
  const keys = schema.primaryKey.length === 0 ? [] : rows.map(keyOf(table, schema.primaryKey));
  tell(!doubles(keys), 'Table Schema, primaryKey', `${name}: a key stands twice`);
};

const checkReferences = (tell: Tell, table: Table, tables: ReadonlyMap<string, Table>) => {
  const section = 'Table Schema, foreignKeys';
  for (const { fields, resource, toFields } of table.schema.foreignKeys) {
    tell(resource !== table.name, section, `${table.name}: a reference to itself names its resource`);
    const to = tables.get(resource ?? table.name);
    if (!tell(to !== undefined, section, `${table.name}: no resource ${resource}`) || !to) continue;
    const isThere = toFields.every(name => to.schema.fields.some(field => field.name === name));
    if (!tell(isThere, section, `${table.name}: no fields ${toFields} in ${to.name}`)) continue;
    const held = new Set(to.rows.map(keyOf(to, toFields)));
    const lost = table.rows.map(keyOf(table, fields)).find(key => key !== null && !held.has(key));
    tell(lost === undefined, section, `${table.name}.${fields}: ${lost} is not in ${to.name}`);
  }
};

const readRows = (tell: Tell, base: string, name: string, path: string, schema: Schema): string[][] => {
  const text = readFileSync(join(base, path), 'utf8');
  tell(!text.startsWith('\ufeff'), 'Table Schema, fieldsMatch', `${name}: a mark before the first name`);
  const { data, errors } = Papa.parse<string[]>(text.replace(/\r\n$/, ''), {
    delimiter: ',',
    newline: '\r\n',
  });
  tell(errors.length === 0, 'Data Resource, path', `${name}: ${errors[0]?.message}`);
  const [heading = [], ...rows] = data;
  const names = schema.fields.map(field => field.name);
  tell(
    JSON.stringify(heading) === JSON.stringify(names),
    'Table Schema, fieldsMatch (exact)',
    `${name}: its heading is not its fields`,
  );
  tell(
    rows.every(row => row.length === names.length),
    'Table Schema, fieldsMatch (exact)',
    `${name}: a row of other length`,
  );
  return rows;
};

const checkResource = (tell: Tell, base: string, resource: unknown): Table[] => {
  if (!tell(isObject(resource), 'Data Package, resources', 'no object') || !isObject(resource)) return [];
  const name = String(resource.name);
  strangers(tell, 'resource', resource, name);
  tell(isText(resource.name), 'Data Resource, name', 'none');
  tell(resource.type === undefined || resource.type === 'table', 'Data Resource, type', name);
  tell(resource.data === undefined, 'Data Resource, path or data', `${name}: both`);
  if (resource.dialect !== undefined) checkDialect(tell, resource.dialect, name);
  const isFile = tell(isPath(resource.path), 'Glossary, URL or Path', `${name}: ${String(resource.path)}`);
  const schema = checkSchema(tell, resource.schema, name);
  if (!isFile || !schema) return [];
  return [{ name, schema, rows: readRows(tell, base, name, resource.path as string, schema) }];
};

/** What is wrong with the package in a folder, each with the section that says so; nothing where all is right. */
export const faultsOfPackage = (base: string): string[] => {
  const faults: string[] = [];
  const tell: Tell = (isRight, section, fault) => {
    if (!isRight) faults.push(`${section}: ${fault}`);
    return isRight;
  };
  const descriptor: unknown = JSON.parse(readFileSync(join(base, 'datapackage.json'), 'utf8'));
  if (!tell(isObject(descriptor), 'Glossary, Descriptor', 'no object') || !isObject(descriptor))
    return faults;
  strangers(tell, 'package', descriptor, 'package');
  const { $schema, resources, created } = descriptor;
  tell(
    $schema === 'https://datapackage.org/profiles/2.0/datapackage.json',
    'Data Package, $schema',
    `${$schema}`,
  );
  tell(
    created === undefined || (isText(created) && dateTime.test(created)),
    'Data Package, created',
    `${created}`,
  );
  if (!tell(Array.isArray(resources) && resources.length > 0, 'Data Package, resources', 'none'))
    return faults;
  const tables = (resources as unknown[]).flatMap(resource => checkResource(tell, base, resource));
  const names = tables.map(({ name }) => name);
  tell(!doubles(names), 'Data Resource, name', 'a name stands twice');
  const byName = new Map(tables.map(table => [table.name, table]));
  for (const table of tables) {
    checkRows(tell, table);
    checkReferences(tell, table, byName);
  }
  return faults;
};
