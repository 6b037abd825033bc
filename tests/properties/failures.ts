import { relative } from 'node:path';
import type { PropertySettings } from './settings.ts';

export interface Failure {
  file: string;
  /** With the titles that it stands under, as vitest's own filter by name joins them. */
  test: string;
  message: string;
  /** Where the property fell, among its drawn and shrunk values; missing where a test fell otherwise. */
  path?: string;
}

interface Results {
  testResults: {
    name: string;
    status: string;
    message: string;
    assertionResults: {
      ancestorTitles: string[];
      title: string;
      status: string;
      failureMessages: string[];
    }[];
  }[];
}

/**
 * What failed by vitest's JSON report, and how many tests passed. A file that could not be loaded is a
 * failure without a test.
 */
export const failuresOf = (results: unknown, root: string): { passed: number; failures: Failure[] } => {
  let passed = 0;
  const failures: Failure[] = [];
  for (const { name, status, message, assertionResults } of (results as Results).testResults) {
    const file = relative(root, name).replaceAll('\\', '/');
    const fallen = assertionResults.filter(test => test.status === 'failed');
    passed += assertionResults.filter(test => test.status === 'passed').length;
    for (const { ancestorTitles, title, failureMessages } of fallen) {
      const text = failureMessages.join('\n');
      const path = /^\{ seed: -?\d+, path: "([\d:]+)"/m.exec(text)?.[1];
      failures.push({
        file,
        test: [...ancestorTitles, title].join(' > '),
        message: text,
        ...(path !== undefined && { path }),
      });
    }
    if (status === 'failed' && fallen.length === 0) failures.push({ file, test: '', message });
  }
  return { passed, failures };
};

const quoted = (text: string) => `'${text.replaceAll("'", "'\\''")}'`;

/**
 * Longer paths only save the shrinking, and make the line unreadable: the seed alone leads to
 * the same failure.
 */
const longestPath = 60;

/** The line for a terminal that runs one failed test again with the values it fell to. */
export const repeatLine = (
  { file, test, path }: Failure,
  { seed, numRuns }: Pick<PropertySettings, 'seed' | 'numRuns'>,
): string =>
  [
    `npm run fuzz -- --seed ${seed} --runs ${numRuns}`,
    ...(path === undefined || path.length > longestPath ? [] : [`--path ${path}`]),
    ...(file === '' ? [] : [`--file ${quoted(file)}`]),
    ...(test === '' ? [] : [`--test ${quoted(test)}`]),
  ].join(' ');
