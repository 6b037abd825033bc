import { expect, it } from 'vitest';
import { countsOfPlaywright, countsOfVitest } from '../run-counts.ts';

const spec = (title: string, status: string) => ({ title, file: 'cars.spec.ts', tests: [{ status }] });

it('a test of the screens that passed only when tried again has failed, and a skipped one is named', () => {
  const results = {
    suites: [
      { specs: [spec('at once', 'expected'), spec('later', 'flaky')] },
      { suites: [{ specs: [spec('never', 'unexpected'), spec('not here', 'skipped')] }] },
    ],
    errors: [{ message: 'a file could not be read' }],
  };
  expect(countsOfPlaywright(results)).toEqual({
    passed: 1,
    failed: 3,
    skipped: ['not here (cars.spec.ts)'],
  });
});

it('a file of units that could not be loaded has failed, and a skipped test is named', () => {
  const test = (fullName: string, status: string) => ({ fullName, status });
  const results = {
    testResults: [
      {
        name: 'a.test.ts',
        status: 'passed',
        assertionResults: [test('one', 'passed'), test('two', 'pending')],
      },
      { name: 'b.test.ts', status: 'failed', assertionResults: [] },
      { name: 'c.test.ts', status: 'failed', assertionResults: [test('three', 'failed')] },
    ],
  };
  expect(countsOfVitest(results)).toEqual({ passed: 1, failed: 2, skipped: ['two (a.test.ts)'] });
});
