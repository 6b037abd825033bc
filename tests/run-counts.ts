/** What came of a suite. */
export interface Counts {
  passed: number;
  failed: number;
  /** Titles of tests that did not run. */
  skipped: string[];
}

export const noCounts: Counts = { passed: 0, failed: 0, skipped: [] };

interface VitestResults {
  testResults: {
    name: string;
    status: string;
    assertionResults: { fullName: string; status: string }[];
  }[];
}

/**
 * Counts of vitest's JSON report. A file that could not be loaded has no tests, and counts as
 * one that failed.
 */
export const countsOfVitest = (results: unknown): Counts => {
  const { testResults } = results as VitestResults;
  const counts: Counts = { passed: 0, failed: 0, skipped: [] };
  for (const file of testResults) {
    const failed = file.assertionResults.filter(test => test.status === 'failed').length;
    counts.passed += file.assertionResults.filter(test => test.status === 'passed').length;
    counts.failed += failed === 0 && file.status === 'failed' ? 1 : failed;
    for (const test of file.assertionResults)
      if (test.status !== 'passed' && test.status !== 'failed')
        counts.skipped.push(`${test.fullName} (${file.name})`);
  }
  return counts;
};

interface PlaywrightSuite {
  suites?: PlaywrightSuite[];
  specs?: { title: string; file: string; tests: { status: string }[] }[];
}

/** Counts of Playwright's JSON report. A test that passed only when tried again has failed. */
export const countsOfPlaywright = (results: unknown): Counts => {
  const counts: Counts = { passed: 0, failed: 0, skipped: [] };
  const look = (suite: PlaywrightSuite): void => {
    for (const inner of suite.suites ?? []) look(inner);
    for (const spec of suite.specs ?? [])
      for (const { status } of spec.tests) {
        if (status === 'expected') counts.passed += 1;
        else if (status === 'skipped') counts.skipped.push(`${spec.title} (${spec.file})`);
        else counts.failed += 1;
      }
  };
  const { suites, errors } = results as PlaywrightSuite & { errors?: unknown[] };
  look({ suites });
  counts.failed += errors?.length ?? 0;
  return counts;
};
