import { existsSync, globSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { expect, it } from 'vitest';

const root = join(import.meta.dirname, '../../..');
const mantine = join(root, 'node_modules/@mantine');
const sheet = readFileSync(join(root, 'renderer/theme/mantine-styles.ts'), 'utf8');
const imported = [...sheet.matchAll(/@mantine\/core\/styles\/(\w[\w-]*)\.layer\.css/g)].map(
  ([, name]) => name!,
);

const stylesOf = (name: string) => join(mantine, 'core/styles', `${name}.layer.css`);

/** What files import by name from somewhere, types left out. */
const namesFrom = (files: Iterable<string>, place: string): Set<string> => {
  const names = new Set<string>();
  const pattern = new RegExp(`import \\{([^}]+)\\} from ["']${place}["']`, 'g');
  for (const file of files)
    for (const [, list] of readFileSync(file, 'utf8').matchAll(pattern))
      for (const name of list!.split(',')) {
        const plain = name.trim().split(' as ')[0]!;
        if (!plain.startsWith('type ')) names.add(plain);
      }
  return names;
};

/** The files of a part of Mantine's that are drawn in by these names, as a bundler follows them. */
const filesOf = (part: string, names: Set<string>): Set<string> => {
  const index = join(mantine, part, 'esm/index.mjs');
  const known = new Set<string>();
  const follow = (file: string): void => {
    if (known.has(file) || !existsSync(file)) return;
    known.add(file);
    for (const [, path] of readFileSync(file, 'utf8').matchAll(/from ["'](\.[^"']+)["']/g))
      follow(join(dirname(file), path!));
  };
  for (const [, list, path] of readFileSync(index, 'utf8').matchAll(
    /import \{([^}]+)\} from ["']([^"']+)["']/g,
  ))
    if (list!.split(',').some(name => names.has(name.trim().split(' as ').at(-1)!)))
      follow(join(dirname(index), path!));
  return known;
};

it('has the styles of every component of Mantine’s that a screen draws with', () => {
  const screens = globSync('renderer/**/*.{ts,tsx}', { cwd: root }).map(file => join(root, file));
  const parts = ['dates', 'notifications', 'spotlight'].flatMap(part => [
    ...filesOf(part, namesFrom(screens, `@mantine/${part}`)),
  ]);
  const styled = [...filesOf('core', namesFrom([...screens, ...parts], '@mantine/core'))]
    .filter(file => file.endsWith('.module.mjs'))
    .map(file => basename(file, '.module.mjs'))
    .filter(name => existsSync(stylesOf(name)));
  expect(styled.length).toBeGreaterThan(20);
  expect(styled.filter(name => !imported.includes(name))).toEqual([]);
});

it('takes them in the order in which Mantine’s own sheet has them', () => {
  const whole = readFileSync(join(mantine, 'core/styles.layer.css'), 'utf8');
  const places = imported
    .map(name => /\.m_[0-9a-f]+/.exec(readFileSync(stylesOf(name), 'utf8')))
    .filter(found => found !== null)
    .map(([mark]) => whole.indexOf(mark));
  expect(places.length).toBeGreaterThan(20);
  expect(places).toEqual(places.toSorted((a, b) => a - b));
});
