// The arrows between the folders, as DEVELOPERS.md draws them; any other arrow fails the build, and so does a
// circle of files, of types too.
const only = (from, to) => ({
  name: `${from}-imports-only`,
  severity: 'error',
  from: { path: `^${from}/` },
  to: {
    path: '^(electron|renderer|db|migrations|valuation|reports|tests)/',
    pathNot: `^(${[from, ...to].join('|')})/`,
  },
});
/**
 * The floors inside a room: each of its folders, with the folders that it may import, which are all below it.
 * The files at the top of a room are common ground that imports no folder (but those of `ground`), save the
 * roof, which puts all together and which no folder imports.
 */
const floors = (room, roof, folders, ground = []) => [
  ...Object.entries(folders).map(([folder, below]) => ({
    name: `${room}-${folder}-stays-on-its-floor`,
    severity: 'error',
    from: { path: `^${room}/${folder}/` },
    to: {
      path: `^${room}/([^/]+/|(${roof})\\.tsx?$)`,
      pathNot: `^${room}/(${[folder, ...below].join('|')})/`,
    },
  })),
  {
    name: `${room}-ground-imports-no-folder`,
    severity: 'error',
    from: { path: `^${room}/[^/]+$`, pathNot: `^${room}/(${roof})\\.tsx?$` },
    to: { path: `^${room}/[^/]+/`, pathNot: ground.length > 0 ? `^${room}/(${ground.join('|')})/` : '^$' },
  },
];
const inside = [
  ...floors(
    'valuation',
    'index',
    {
      types: [],
      reading: [],
      statistics: [],
      work: ['statistics'],
      market: ['statistics'],
      worth: ['work', 'market', 'statistics'],
      decision: ['worth', 'work', 'market', 'statistics'],
      choice: ['decision', 'worth', 'market', 'statistics'],
      lots: ['worth', 'market', 'statistics'],
    },
    ['types', 'statistics', 'work'],
  ),
  ...floors(
    'db',
    'open-collection',
    {
      schema: [],
      file: [],
      reference: [],
      search: ['reference'],
      history: ['search', 'file'],
      records: ['history', 'reference'],
      photos: ['file'],
      backup: ['photos', 'history', 'search', 'file'],
      archive: ['backup', 'photos', 'history', 'file'],
      import: ['records', 'history', 'reference', 'file'],
      engine: ['records'],
    },
    ['schema'],
  ),
  ...floors('db/records', 'none', {
    cars: [],
    collection: [],
    decisions: [],
    lots: [],
    plans: [],
    sales: [],
    worth: [],
    bench: ['decisions', 'plans'],
    'own-words': ['cars', 'collection', 'lots', 'sales'],
    names: ['own-words', 'cars', 'sales'],
  }),
  ...floors('reports', 'none', {
    join: [],
    tables: [],
    labels: [],
    documents: ['tables', 'join'],
    model: ['tables'],
    spreadsheet: ['model', 'tables'],
    typesetting: ['model', 'documents', 'labels', 'join'],
    gallery: ['typesetting'],
  }),
  ...floors(
    'electron/api',
    'router',
    {
      inputs: [],
      views: [],
      session: [],
      reference: ['session'],
      figures: ['reference', 'session'],
      sales: ['figures', 'reference', 'session'],
      names: ['sales', 'figures', 'reference', 'session'],
      lists: ['figures', 'reference', 'session'],
      cars: ['sales', 'figures', 'reference', 'session'],
      worth: ['cars', 'figures', 'reference', 'session'],
      work: ['cars', 'figures', 'reference', 'session'],
      decisions: ['cars', 'figures', 'reference', 'session'],
      lots: ['cars', 'figures', 'session'],
      gallery: ['cars', 'figures', 'reference', 'session'],
      young: ['names', 'cars', 'figures', 'reference', 'session'],
      collection: ['young', 'cars', 'figures', 'reference', 'session'],
      imports: ['sales', 'figures', 'reference', 'session'],
      words: ['sales', 'figures', 'reference', 'session'],
      reports: ['figures', 'reference', 'session'],
      exports: ['reports', 'cars', 'sales', 'decisions', 'lots', 'reference', 'session'],
      papers: ['exports', 'reports', 'cars', 'decisions', 'lots', 'worth', 'figures', 'reference', 'session'],
      archive: ['reports', 'session'],
    },
    ['inputs', 'views'],
  ),
  ...floors('renderer', 'main', {
    theme: [],
    api: ['theme'],
    components: ['api', 'theme'],
    screens: ['components', 'api', 'theme'],
    shell: ['screens', 'components', 'api', 'theme'],
  }),
  {
    name: 'no-screen-imports-another',
    severity: 'error',
    from: { path: '^renderer/screens/([^/]+)/' },
    to: { path: '^renderer/screens/', pathNot: '^renderer/screens/$1/' },
  },
];
const charts = '^renderer/screens/(home/worth-chart|sales/price-chart|cars/car/worth/worth-lines)\\.tsx$';

module.exports = {
  forbidden: [
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    ...inside,
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
    // Charts are more code than all else that a screen needs; only their own files draw with the library.
    {
      name: 'charts-are-drawn-in-files-of-their-own',
      severity: 'error',
      from: { path: '^renderer/', pathNot: charts },
      to: { path: 'node_modules/recharts/' },
    },
    {
      name: 'charts-are-loaded-when-shown',
      severity: 'error',
      from: { path: '^renderer/' },
      to: { path: charts, dynamic: false },
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
    // TypeScript 7 has no API to parse with; swc reads the sources instead. It tells type-only imports apart,
    // but does not see inline `import('…').Type` expressions.
    parser: 'swc',
    enhancedResolveOptions: {
      extensions: ['.ts', '.tsx', '.mjs', '.cjs', '.js', '.json'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default', 'types'],
    },
  },
};
