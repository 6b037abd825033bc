import type { Kysely, KyselyPlugin } from 'kysely';
import type { Schema } from './schema.ts';

type Node = { kind: string } & Record<string, unknown>;

const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && 'kind' in value && typeof value.kind === 'string';

const parts = (node: Node): Node[] =>
  Object.values(node).flatMap(value =>
    Array.isArray(value) ? value.filter(isNode) : isNode(value) ? [value] : [],
  );

const all = (node: Node): Node[] => [node, ...parts(node).flatMap(all)];

const nameIn = (node: unknown): string | undefined =>
  isNode(node)
    ? node.kind === 'IdentifierNode'
      ? String(node.name)
      : parts(node)
          .map(nameIn)
          .find(name => name !== undefined)
    : undefined;

/** The key that a query of settings asks for, where it asks for one. */
const settingKey = (nodes: Node[]): string | undefined => {
  const compared = nodes.find(
    node =>
      node.kind === 'BinaryOperationNode' && nameIn(node.leftOperand) === 'key' && isNode(node.rightOperand),
  );
  const value = compared && (compared.rightOperand as Node).value;
  return typeof value === 'string' ? value : undefined;
};

const sourcesOf = (query: Node): string[] => {
  const nodes = all(query);
  const raw = nodes.find(
    node => node.kind === 'RawNode' && /\b(from|join)\b/i.test((node.sqlFragments as string[]).join(' ')),
  );
  if (raw)
    throw new Error(
      'What a text of SQL reads cannot be told; build the query of an answer that is remembered.',
    );
  const tables = nodes.filter(node => node.kind === 'TableNode').map(node => nameIn(node.table) ?? '');
  const key = tables.includes('setting') ? settingKey(nodes) : undefined;
  return tables.map(table => (table === 'setting' && key !== undefined ? settingSource(key) : table));
};

/** How a setting is called among what a query reads. */
export const settingSource = (key: string): string => `setting ${key}`;

/**
 * The same handle, noting in `reads` what each query reads: the names of its tables, and of settings
 * the one that is asked for (`setting today`). Throws on a query that is written as text, of which
 * that cannot be told.
 */
export const recordReads = (db: Kysely<Schema>, reads: Set<string>): Kysely<Schema> => {
  const recorder: KyselyPlugin = {
    transformQuery({ node }) {
      for (const source of sourcesOf(node as unknown as Node)) reads.add(source);
      return node;
    },
    transformResult: async ({ result }) => result,
  };
  return db.withPlugin(recorder);
};
