// The arrows between the folders, as DEVELOPERS.md draws them; any other arrow fails the build, and so does a circle of files, of types too.
const only = (from, to) => ({
  name: `${from}-imports-only`,
  severity: 'error',
  from: { path: `^${from}/` },
  to: {
    path: '^(electron|renderer|db|migrations|valuation|reports|tests)/',
    pathNot: `^(${[from, ...to].join('|')})/`,
  },
});
module.exports = {
  forbidden: [
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    only('electron', ['db', 'reports', 'valuation']),
    only('db', ['migrations', 'valuation']),
    only('migrations', []),
    only('valuation', []),
    only('reports', ['valuation']),
    {
      name: 'renderer-types-of-the-api-only',
      severity: 'error',
      from: { path: '^renderer/' },
      to: { path: '^electron/', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'renderer-sees-only-the-api',
      severity: 'error',
      from: { path: '^renderer/' },
      to: { path: '^(db|migrations|reports|tests|electron/(?!api/))' },
    },
    {
      name: 'migrations-import-kysely-only',
      severity: 'error',
      from: { path: '^migrations/' },
      to: { pathNot: '^migrations/|node_modules/kysely' },
    },
    {
      name: 'db-and-reports-take-money-and-wording-only',
      severity: 'error',
      from: { path: '^(db|reports)/' },
      to: {
        path: '^valuation/',
        pathNot: '^valuation/((money|words|types)\\.ts$|wording/|reading/)',
        dependencyTypesNot: ['type-only'],
      },
    },
    {
      name: 'wording-words-facts-only',
      severity: 'error',
      from: { path: '^valuation/wording/' },
      to: {
        path: '^valuation/',
        pathNot: '^valuation/((money|words|types)\\.ts$|wording/)',
        dependencyTypesNot: ['type-only'],
      },
    },
    {
      name: 'the-engine-makes-no-sentences',
      severity: 'error',
      from: { path: '^valuation/', pathNot: '^valuation/wording/' },
      to: { path: '^valuation/wording/' },
    },
    {
      name: 'the-demo-is-loaded-when-asked-for',
      severity: 'error',
      from: { path: '^electron/', pathNot: '^electron/demo/' },
      to: { path: '^electron/demo/', dynamic: false },
    },
    {
      name: 'valuation-is-pure',
      severity: 'error',
      from: { path: '^valuation/' },
      to: { dependencyTypes: ['core'] },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    // TypeScript 7 has no API to parse with; swc reads the sources instead. It tells type-only imports apart, but does not
    // see inline `import('…').Type` expressions.
    parser: 'swc',
    enhancedResolveOptions: {
      extensions: ['.ts', '.tsx', '.mjs', '.cjs', '.js', '.json'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default', 'types'],
    },
  },
};
